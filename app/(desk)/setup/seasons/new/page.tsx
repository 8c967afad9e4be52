import type { Metadata } from 'next'
import { newSeason } from '#lib/service/setup/season.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { seasonParts } from '../_parts/season-parts.ts'
import { addSeasonAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a season') }

export default async function NewSeasonPage() {
  const species = await load(newSeason(await requireActor()))
  return (
    <SetupFrame noun="seasons" sentence={addWords('a season')}>
      <SetupForm
        action={addSeasonAction}
        parts={seasonParts(undefined, species)}
        submit={addWords('this season')}
      />
    </SetupFrame>
  )
}
