import type { Metadata } from 'next'
import { newPlaceForm } from '#lib/service/setup/place.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { placeParts } from '../_parts/place-parts.ts'
import { addPlaceAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a place') }

export default async function NewPlacePage() {
  await load(newPlaceForm(await requireActor()))
  return (
    <SetupFrame noun="places" sentence={addWords('a place')}>
      <SetupForm action={addPlaceAction} parts={placeParts(undefined)} submit={addWords('this place')} />
    </SetupFrame>
  )
}
