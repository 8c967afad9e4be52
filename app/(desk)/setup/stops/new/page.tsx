import type { Metadata } from 'next'
import { newStopForm } from '#lib/service/setup/stop.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { stopParts } from '../_parts/stop-parts.ts'
import { planStopAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a state of a site') }

export default async function NewStopPage() {
  const centres = await load(newStopForm(await requireActor()))
  return (
    <SetupFrame noun="stops" sentence={addWords('a state of a site')}>
      <SetupForm action={planStopAction} parts={stopParts(centres)} submit={addWords('this state')} />
    </SetupFrame>
  )
}
