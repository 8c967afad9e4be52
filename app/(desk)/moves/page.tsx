import type { Metadata } from 'next'
import { Answer } from '#app/_ui/section.tsx'
import { readJourneys } from '#lib/service/road.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { requireActor } from '#lib/web/session.ts'
import { MOVES, movesSentence } from '#lib/words/road.ts'
import { Desk } from '../_parts/desk.tsx'
import { OnTheRoad } from './_parts/on-the-road.tsx'

export const metadata: Metadata = { title: MOVES.title }

export default async function MovesPage() {
  const [actor, { now, zone }] = await Promise.all([requireActor(), currentDay()])
  const journeys = await load(readJourneys(actor))
  return (
    <Desk current="moves">
      <Answer reference={MOVES.title} sentence={movesSentence(journeys)} />
      <OnTheRoad journeys={journeys} now={now} zone={zone} />
    </Desk>
  )
}
