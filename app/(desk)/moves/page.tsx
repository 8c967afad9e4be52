import type { Metadata } from 'next'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { isOpenTransfer } from '#lib/domain/transfer.ts'
import { readMovesAside } from '#lib/service/move-aside.ts'
import { readProposedMoves } from '#lib/service/move-proposal.ts'
import { readJourneys } from '#lib/service/road.ts'
import { readTransfers } from '#lib/service/transfer.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageWord } from '#lib/web/params.ts'
import { requireActor } from '#lib/web/session.ts'
import { ASIDE } from '#lib/words/move-aside.ts'
import { MOVES } from '#lib/words/road.ts'
import { movesAnswer, TRANSFER } from '#lib/words/transfer.ts'
import { Desk } from '../_parts/desk.tsx'
import { Aside } from './_parts/aside.tsx'
import { OnTheRoad } from './_parts/on-the-road.tsx'
import { Proposals } from './_parts/proposals.tsx'
import { Transfers } from './_parts/transfers.tsx'
import './moves.css'

export const metadata: Metadata = { title: MOVES.title }

const MS_PER_DAY = 86_400_000
const DONE: Readonly<Record<string, string>> = {
  proposed: TRANSFER.done,
  agreed: TRANSFER.agreedByOffer,
  cancelled: TRANSFER.cancelled,
  aside: ASIDE.done,
  'taken-up': ASIDE.takenUp,
}

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function MovesPage({ searchParams }: Props) {
  const [actor, query, { now, zone }] = await Promise.all([requireActor(), searchParams, currentDay()])
  const [journeys, transfers, moves, aside] = await Promise.all([
    load(readJourneys(actor)),
    load(readTransfers(actor, now)),
    load(readProposedMoves(actor, now)),
    load(readMovesAside(actor, now)),
  ])
  const open = transfers.filter(({ state }) => isOpenTransfer(state))
  const mayArrange = may(actor, 'move.arrange')
  const done = DONE[pageWord(query['done']) ?? '']
  return (
    <Desk current="moves">
      <Answer
        reference={MOVES.title}
        sentence={movesAnswer(moves.length, open.length, journeys.length, aside.length)}
      />
      {done !== undefined && <Notice kind="done" role="status" sentence={done} />}
      <Proposals
        moves={moves}
        hasAside={aside.length > 0}
        mayArrange={mayArrange}
        expectedAt={new Date(now.getTime() + MS_PER_DAY)}
        zone={zone}
      />
      <Aside aside={aside} mayArrange={mayArrange} zone={zone} />
      <Transfers transfers={transfers} mayArrange={mayArrange} now={now} zone={zone} />
      <OnTheRoad journeys={journeys} now={now} zone={zone} />
    </Desk>
  )
}
