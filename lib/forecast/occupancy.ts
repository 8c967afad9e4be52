/**
 * One casualty's future for people to see: each stage's likely days, and how it ends.
 * Promise: conditioned as in presence.ts; on every day the chances of all stages and endings sum to 1. Nothing is
 * renormalised; what lies beyond the horizon stays there.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { EXITS, type Exit, newByExit } from '#lib/domain/housing.ts'
import { delayBy } from '#lib/numerics/convolution.ts'
import { newWork } from '#lib/numerics/work.ts'
import type { Itinerary, PathStage } from './model.ts'
import { type Clock, walkItinerary } from './presence.ts'
import { stageLaw } from './stage-law.ts'
import { onwardEver, passLearned, residualExits } from './walk.ts'

/**
 * One stage of a casualty's way, from today on (index 0).
 * `entersByDay[d]`: P(enters on that day); all 0 for the stage it is in. `presentByDay[d]`: P(in it at the midnight
 * ending that day). `endsByDay[exit][d]`: P(ends it so on that day). `reachProbability`: P(ever in it).
 * `onwardProbability`: P(ever goes on from it); for the last stage that is release.
 */
export type StageOccupancy = PathStage & {
  readonly index: number
  readonly entersByDay: Float64Array
  readonly presentByDay: Float64Array
  readonly endsByDay: Readonly<Record<Exit, Float64Array>>
  readonly reachProbability: number
  readonly onwardProbability: number
}

/** `stages` from the one it is in (or waits for, or enters first). Horizon as asked, `today` at index 0. */
export type Occupancy = {
  readonly casualtyId: string
  readonly today: DayNumber
  readonly horizonDays: number
  readonly stages: readonly StageOccupancy[]
}

/**
 * The occupancy of one itinerary (of each one animal of a litter). The clock's horizon may be longer than the
 * forecast's. Throws RangeError as walkItinerary does.
 */
export function occupancyOf(itinerary: Itinerary, clock: Clock): Occupancy {
  const { from, back, walks, residual, age, firstDayShare } = walkItinerary(itinerary, clock, newWork())
  const start = clock.today - back
  const stages: StageOccupancy[] = []
  let reach = 1
  walks.forEach((walk, i) => {
    const stage = itinerary.stages[from + i]!
    const isHere = i === 0 && walk.wasIn === 1
    const days = walk.present.length
    const ends = !isHere
      ? endsOf(stage, walk.enters, start)
      : residual
        ? residualExits(stage.estimate, start - age, age, days, firstDayShare)
        : releasedTomorrow(days)
    const onward = isHere
      ? (residual?.onwardEver ?? 1)
      : onwardEver(stage.estimate, { enters: walk.enters, axisStart: start, reach })
    stages.push({
      ...stage,
      index: from + i,
      entersByDay: foldedBefore(walk.enters, back),
      presentByDay: walk.present.subarray(back),
      endsByDay: newByExit(exit => foldedBefore(ends[exit], back)),
      reachProbability: reach,
      onwardProbability: onward,
    })
    reach = onward
  })
  return { casualtyId: itinerary.casualtyId, today: clock.today, horizonDays: clock.horizonDays, stages }
}

/**
 * The day, counted from today, by which a stage has been passed with this probability *given that it is passed*;
 * undefined where that day lies beyond the horizon. The last stage's passing is release.
 */
export function findPassedBy(stage: StageOccupancy, probability: number): number | undefined {
  return findDay(stage.endsByDay.onward, probability * stage.onwardProbability)
}

/** The day by which a stage has been entered with this probability given that it is ever entered; 0 for the one it is in. */
export function findEnteredBy(stage: StageOccupancy, probability: number): number | undefined {
  if (stage.entersByDay.every(p => p === 0)) return stage.presentByDay[0]! > 0 ? 0 : undefined
  return findDay(stage.entersByDay, probability * stage.reachProbability)
}

/** P(its whole way has ended by this exit by the end of each day): released (`onward`), died, euthanased, left. */
export function goneByDay({ stages, horizonDays }: Occupancy, exit: Exit): Float64Array {
  const gone = new Float64Array(horizonDays)
  const ending = exit === 'onward' ? stages.slice(-1) : stages
  let total = 0
  for (let d = 0; d < horizonDays; d++) {
    for (const { endsByDay } of ending) total += endsByDay[exit][d]!
    gone[d] = total
  }
  return gone
}

/** Rounding allowed when a cumulated chance meets a level exactly. */
const LEVEL_ROUNDING = 1e-12

function findDay(byDay: Float64Array, level: number): number | undefined {
  let sum = 0
  for (let d = 0; d < byDay.length; d++) {
    sum += byDay[d]!
    if (sum > 0 && sum >= level - LEVEL_ROUNDING) return d
  }
  return undefined
}

/** Ends of a stage by day, for entries by day of an axis from `start`. */
function endsOf({ estimate }: PathStage, enters: Float64Array, start: DayNumber): Record<Exit, Float64Array> {
  const passed = passLearned(estimate, enters, start, EXITS, newWork())
  if (passed !== undefined) return passed.ends
  const n = enters.length
  const ends = newByExit(() => new Float64Array(n))
  if (estimate.ready.kind === 'length') {
    const law = stageLaw(estimate, start, n + 1)
    for (const exit of EXITS) delayBy(enters, law.masses[exit], ends[exit], newWork())
    return ends
  }
  // By date each day of entry has a law of its own.
  for (let e = 0; e < n; e++) {
    if (enters[e] === 0) continue
    const law = stageLaw(estimate, start + e, n - e)
    for (const exit of EXITS) {
      for (let k = 0; e + k < n; k++)
        ends[exit][e + k] = ends[exit][e + k]! + enters[e]! * law.masses[exit][k]!
    }
  }
  return ends
}

/** Ready in its last stage: it keeps its place tonight. */
function releasedTomorrow(days: number): Record<Exit, Float64Array> {
  const ends = newByExit(() => new Float64Array(days))
  if (days > 1) ends.onward[1] = 1
  return ends
}

/** What may have happened unseen before today counts as today's. */
function foldedBefore(byDay: Float64Array, back: number): Float64Array {
  if (back === 0) return byDay
  const folded = byDay.slice(back)
  for (let d = 0; d < back; d++) folded[0] = folded[0]! + byDay[d]!
  return folded
}
