import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getPracticeForm } from '#lib/service/setup/practice.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { practiceParts } from '../_parts/practice-parts.ts'
import { changePracticeAction, switchPracticeAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.practices }

export default async function PracticePage({ params, searchParams }: PageProps<'/setup/practices/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const asked = await load(getPracticeForm(actor, pageNumber(id)))
  const { practice } = asked
  if (practice === undefined) return null
  const mayChange = may(actor, 'setup.practices')
  return (
    <SetupFrame
      noun="practices"
      sentence={switchedWords(practice.name, practice.isActive)}
      kept={pageWord(kept)}
    >
      <RecordForm
        mayChange={mayChange}
        action={changePracticeAction}
        parts={practiceParts(asked)}
        id={practice.id}
        version={practice.version}
        here={paths.setupItem('practices', practice.id)}
      />
      {mayChange && (
        <SwitchSection
          action={switchPracticeAction}
          id={practice.id}
          version={practice.version}
          isActive={practice.isActive}
        />
      )}
    </SetupFrame>
  )
}
