import type { Metadata } from 'next'
import { newSpeciesForm } from '#lib/service/setup/species.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { speciesParts } from '../_parts/species-parts.ts'
import { addSpeciesAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a species') }

export default async function NewSpeciesPage() {
  const asked = await load(newSpeciesForm(await requireActor()))
  return (
    <SetupFrame noun="species" sentence={addWords('a species')}>
      <SetupForm action={addSpeciesAction} parts={speciesParts(asked)} submit={addWords('this species')} />
    </SetupFrame>
  )
}
