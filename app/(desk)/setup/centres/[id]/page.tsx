import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getCentreForm } from '#lib/service/setup/centre.ts'
import { getContacts } from '#lib/service/setup/centre-contact.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { SETUP_PAGE, switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { PartsAsFacts } from '../../_parts/parts-as-facts.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { centreParts } from '../_parts/centre-parts.ts'
import { contactParts } from '../_parts/contact-parts.ts'
import { changeCentreAction, changeContactsAction, switchCentreAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.centres }

export default async function CentrePage({ params, searchParams }: PageProps<'/setup/centres/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const asked = await load(getCentreForm(actor, pageNumber(id)))
  const { centre } = asked
  if (centre === undefined) return null
  const contacts = contactParts(await load(getContacts(actor, centre.id)))
  const mayChange = may(actor, 'setup.housing')
  return (
    <SetupFrame noun="centres" sentence={switchedWords(centre.name, centre.isActive)} kept={pageWord(kept)}>
      <RecordForm
        mayChange={mayChange}
        action={changeCentreAction}
        parts={centreParts(asked)}
        id={centre.id}
        version={centre.version}
        here={paths.setupItem('centres', centre.id)}
      />
      {mayChange ? (
        <SetupForm
          action={changeContactsAction}
          parts={contacts}
          submit={SETUP_PAGE.save}
          hidden={{ id: String(centre.id), version: String(centre.version) }}
          here={paths.setupItem('centres', centre.id)}
          isSecond
        />
      ) : (
        <PartsAsFacts parts={contacts} />
      )}
      {mayChange && (
        <SwitchSection
          action={switchCentreAction}
          id={centre.id}
          version={centre.version}
          isActive={centre.isActive}
        />
      )}
    </SetupFrame>
  )
}
