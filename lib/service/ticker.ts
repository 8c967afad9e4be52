/**
 * Timers: due times are columns of the things themselves, claimed every few seconds by each process.
 * Promise: each is done once whichever process sees it first; a fault is reported and the next beat tries again; beats
 * never overlap. Time comes in from the one clock.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { claimLateLegs } from '#lib/db/road.ts'
import { CLAIM_COUNT_MAX, expireDueHolds, tellWhatFellDue } from '#lib/db/timer.ts'
import { expireTransfers } from '#lib/db/transfer.ts'
import { goOnWithDue } from './ask-turn.ts'
import { followSeason } from './company-season.ts'

const BEAT_MS = 5000
/** A beat that claims this often leaves the rest to the next: a claim that frees nothing can't hold it for ever. */
const CLAIMS_A_BEAT_MAX = 50
const ASKS_A_BEAT_MAX = 1000

export type Ticked = {
  readonly holds: number
  readonly asks: number
  readonly seasons: number
  /** Drivers whose lateness was told. */
  readonly late: number
  /** Agreed moves that nobody drove by their hour. */
  readonly moves: number
  /** What fell due and was told to open pages. */
  readonly told: number
}

export type TickerParts = {
  readonly now: () => Promise<Date>
  readonly onFault: (thrown: unknown) => void
  readonly everyMs?: number
  /** What each beat does; everything due unless given. */
  readonly work?: (now: Date) => Promise<unknown>
}

/** System: claims everything due at an instant, and says how much it was. */
export async function tick(now: Date): Promise<Ticked> {
  const holds = await untilFew(() => expireDueHolds(demand(systemActor('hold ran out'), 'system.run'), now))
  let asks = 0
  while (asks < ASKS_A_BEAT_MAX && (await goOnWithDue(now))) asks++
  const late = await untilFew(() => claimLateLegs(demand(systemActor('leg is late'), 'system.run'), now))
  const moves = await untilFew(() =>
    expireTransfers(demand(systemActor('transfer lapsed'), 'system.run'), now),
  )
  const seasons = await followSeason(now)
  const told = await tellWhatFellDue(demand(systemActor('what fell due'), 'system.run'), now)
  return { holds, asks, late, moves, seasons, told }
}

/** System: beats until stopped; the function it gives back stops it once the beat under way is done. */
export function startTicker({
  now,
  onFault,
  everyMs = BEAT_MS,
  work = tick,
}: TickerParts): () => Promise<void> {
  let beat: Promise<void> | undefined
  const timer = setInterval(() => {
    beat ??= now()
      .then((at): Promise<unknown> => (work === undefined ? tick(at) : work(at)))
      .then(() => undefined, onFault)
      .finally(() => {
        beat = undefined
      })
  }, everyMs)
  // Alone, it keeps no process alive.
  timer.unref()
  return async () => {
    clearInterval(timer)
    await beat
  }
}

async function untilFew(claim: () => Promise<number>): Promise<number> {
  let total = 0
  for (let round = 0; round < CLAIMS_A_BEAT_MAX; round++) {
    const count = await claim()
    total += count
    if (count < CLAIM_COUNT_MAX) break
  }
  return total
}
