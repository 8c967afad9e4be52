import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getWayIn } from '#lib/service/password-link.ts'
import { getLeaving, getPersonForm } from '#lib/service/setup/person.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { dutiesWords } from '#lib/words/leaver.ts'
import { SETUP } from '#lib/words/setup.ts'
import { PERSON_FORM } from '#lib/words/setup-form.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { LeaverSection } from '../_parts/leaver.tsx'
import { heirPart, passwordPart, personParts } from '../_parts/person-parts.ts'
import { WayInSection } from '../_parts/way-in.tsx'
import { changePasswordAction, changePersonAction, makeLinkAction, switchPersonAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.people }

export default async function PersonPage({ params, searchParams }: PageProps<'/setup/people/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const asked = await load(getPersonForm(actor, pageNumber(id)))
  const { person } = asked
  if (person === undefined) return null
  const mayChange = may(actor, 'people.change')
  const way = mayChange ? await load(getWayIn(actor, person.id)) : undefined
  const leaving = mayChange && person.isActive ? await load(getLeaving(actor, person.id)) : undefined
  const here = paths.setupItem('people', person.id)
  return (
    <SetupFrame noun="people" sentence={switchedWords(person.name, person.isActive)} kept={pageWord(kept)}>
      <RecordForm
        mayChange={mayChange}
        action={changePersonAction}
        parts={[...personParts(asked), ...(leaving === undefined ? [] : [heirPart(leaving)])]}
        id={person.id}
        version={person.version}
        here={here}
      />
      {mayChange && (
        <>
          {way !== undefined && <WayInSection action={makeLinkAction} id={person.id} way={way} />}
          <SetupForm
            action={changePasswordAction}
            parts={[passwordPart(false)]}
            submit={PERSON_FORM.setPassword}
            hidden={{ id: String(person.id), version: String(person.version) }}
            here={here}
            isSecond
          />
          {person.isActive ? (
            <LeaverSection
              action={switchPersonAction}
              id={person.id}
              version={person.version}
              owed={leaving && { words: dutiesWords(leaving.duties), heirs: leaving.heirs }}
            />
          ) : (
            <SwitchSection
              action={switchPersonAction}
              id={person.id}
              version={person.version}
              isActive={false}
              note={PERSON_FORM.switchedOff}
            />
          )}
        </>
      )}
    </SetupFrame>
  )
}
