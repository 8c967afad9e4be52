import type { Metadata } from 'next'
import { newCentreForm } from '#lib/service/setup/centre.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { centreParts } from '../_parts/centre-parts.ts'
import { addCentreAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a centre') }

export default async function NewCentrePage() {
  const asked = await load(newCentreForm(await requireActor()))
  return (
    <SetupFrame noun="centres" sentence={addWords('a centre')}>
      <SetupForm action={addCentreAction} parts={centreParts(asked)} submit={addWords('this centre')} />
    </SetupFrame>
  )
}
