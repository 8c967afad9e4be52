import type { Metadata } from 'next'
import { newPracticeForm } from '#lib/service/setup/practice.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { practiceParts } from '../_parts/practice-parts.ts'
import { addPracticeAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a practice') }

export default async function NewPracticePage() {
  const asked = await load(newPracticeForm(await requireActor()))
  return (
    <SetupFrame noun="practices" sentence={addWords('a practice')}>
      <SetupForm action={addPracticeAction} parts={practiceParts(asked)} submit={addWords('this practice')} />
    </SetupFrame>
  )
}
