/** How a stage ends for one animal and when: the plan's odds and lengths, bent as the coast really is. */
import { type DayNumber, dateOfDay, dayOfDate, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import type { StageEstimate } from '#lib/domain/estimate.ts'
import { EXITS, type Exit } from '#lib/domain/housing.ts'
import type { Random } from '#lib/kernel/random.ts'
import { drawIndex, drawLength } from './draw.ts'
import { lengthTimes, onwardOddsTimes } from './truth.ts'

export type Fate = { readonly exit: Exit; readonly at: number }

const MS_PER_DAY = 86_400_000
const MS_PER_MINUTE = 60_000
/** Rounds and consultations: when it is seen that an animal is ready, has died, has gone. */
const SEEN_FROM_MINUTE = 8 * 60
const SEEN_UNTIL_MINUTE = 17 * 60
const SHORTEST_MS = 20 * MS_PER_MINUTE

/** The ending of a stage that began at an instant, for an animal with this condition. */
export function drawFate(
  random: Random,
  estimate: StageEstimate,
  condition: string,
  beganAt: number,
  zone: string,
): Fate {
  const shares = bentShares(estimate, condition)
  const exit = EXITS[drawIndex(random, shares)] ?? 'onward'
  const at = beganAt + drawDays(random, estimate, exit, condition, beganAt, zone) * MS_PER_DAY
  const day = dayOfInstant(new Date(at), zone)
  const minute = SEEN_FROM_MINUTE + random() * (SEEN_UNTIL_MINUTE - SEEN_FROM_MINUTE)
  const seen = startOfDay(day, zone).getTime() + Math.round(minute) * MS_PER_MINUTE
  return { exit, at: Math.max(seen, beganAt + SHORTEST_MS) }
}

function bentShares({ shares }: StageEstimate, condition: string): number[] {
  const onward = shares.onward * onwardOddsTimes(condition)
  const total = onward + shares.died + shares.euthanased + shares.left
  return EXITS.map(exit => (exit === 'onward' ? onward : shares[exit]) / total)
}

function drawDays(
  random: Random,
  estimate: StageEstimate,
  exit: Exit,
  condition: string,
  beganAt: number,
  zone: string,
): number {
  if (exit === 'died') return drawLength(random, estimate.died)
  if (exit === 'euthanased') return drawLength(random, estimate.euthanased)
  const { ready } = estimate
  if (ready.kind === 'length') {
    return drawLength(random, ready.length) * lengthTimes(condition, estimate.stage)
  }
  const entered = dayOfInstant(new Date(beganAt), zone)
  const opens = openingDay(entered + ready.minDays, ready.opens, ready.closes)
  return opens - entered + drawLength(random, ready.lag)
}

/** The first day on or after the earliest at which the gate stands open. */
function openingDay(earliest: DayNumber, opens: string, closes: string | null): DayNumber {
  const year = Number(dateOfDay(Math.ceil(earliest)).slice(0, 4))
  for (const one of [year - 1, year, year + 1]) {
    const from = dayOfDate(`${one}-${opens}`)
    const until = dayOfDate(`${one}-${closes ?? '12-31'}`)
    if (earliest <= until) return Math.max(from, Math.ceil(earliest))
  }
  throw new RangeError(`opens needs a day of the year, got ${opens}`)
}
