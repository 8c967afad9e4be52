import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getEnclosureForm } from '#lib/service/setup/enclosure.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { enclosureParts } from '../_parts/enclosure-parts.ts'
import { changeEnclosureAction, switchEnclosureAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.enclosures }

export default async function EnclosurePage({ params, searchParams }: PageProps<'/setup/enclosures/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const asked = await load(getEnclosureForm(actor, pageNumber(id)))
  const { enclosure } = asked
  if (enclosure === undefined) return null
  const mayChange = may(actor, 'setup.housing')
  return (
    <SetupFrame
      noun="enclosures"
      sentence={switchedWords(`${enclosure.name}, ${enclosure.centre}`, enclosure.isActive)}
      kept={pageWord(kept)}
    >
      <RecordForm
        mayChange={mayChange}
        action={changeEnclosureAction}
        parts={enclosureParts(asked)}
        id={enclosure.id}
        version={enclosure.version}
        here={paths.setupItem('enclosures', enclosure.id)}
      />
      {mayChange && (
        <SwitchSection
          action={switchEnclosureAction}
          id={enclosure.id}
          version={enclosure.version}
          isActive={enclosure.isActive}
        />
      )}
    </SetupFrame>
  )
}
