/**
 * Where one casualty will be, by day: the walk from today on, and which pool it occupies.
 * Promise: conditioned on what is known (days so far, ready, days since the last count). Index 0 is today; a value is
 * the chance at the midnight that ends the day, or at the second count (in at last midnight plus the day's arrivals).
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Work } from '#lib/numerics/work.ts'
import type { ForecastInput, Itinerary, Need, PathStage } from './model.ts'
import { type Residual, residualOf, type StageWalk, walkFrom } from './walk.ts'

/** What a forecast knows of time. */
export type Clock = Pick<ForecastInput, 'today' | 'horizonDays' | 'shareOfTodayLeft'>

/** `midnight` counts who is in at the midnight that ends a day; `day` who was in at any moment since the last one. */
export type Count = 'midnight' | 'day'

/** How one walk occupies one pool: `presence[d]`, a chance or an expected number. */
export type PoolPresence = { readonly poolId: string; readonly need: Need; readonly presence: Float64Array }

/**
 * The walk of an itinerary on an axis that starts `back` days before today (days not counted since, else 0).
 * `walks[i]` belongs to stage `from + i`; `residual` describes the stage it is in, absent when it is only expected
 * or already waits for the next stage.
 */
export type ItineraryWalk = {
  readonly from: number
  readonly back: number
  readonly walks: readonly StageWalk[]
  readonly residual: Residual | undefined
  /** Days of the stage that had passed when the axis starts, and the share of its first day still to come. */
  readonly age: number
  readonly firstDayShare: number
}

/** Walks an itinerary; throws RangeError when its first stage is not one of its stages. */
export function walkItinerary(itinerary: Itinerary, clock: Clock, work: Work): ItineraryWalk {
  const { stages, firstStage } = itinerary
  const current = stages[firstStage]
  if (!current) throw new RangeError(`firstStage needs an index below ${stages.length}, got ${firstStage}`)
  if (itinerary.isReady) return walkReady(itinerary, clock, work)
  const n = clock.horizonDays
  if (itinerary.enteredStageOn > clock.today) {
    const enters = oneOn(itinerary.enteredStageOn - clock.today, n)
    return {
      from: firstStage,
      back: 0,
      walks: walkFrom(stages, firstStage, enters, clock.today, work),
      residual: undefined,
      age: 0,
      firstDayShare: 1,
    }
  }
  const soFar = clock.today - itinerary.enteredStageOn
  const back = Math.min(itinerary.unseenDays, soFar)
  return walkCurrent(itinerary, soFar - back, back, itinerary.enteredStageOn, clock, work)
}

/** The walk of an animal that is in stage `firstStage`, known there `age` days after it began, `back` days ago. */
function walkCurrent(
  itinerary: Itinerary,
  age: number,
  back: number,
  entryDay: DayNumber,
  clock: Clock,
  work: Work,
): ItineraryWalk {
  const { stages, firstStage } = itinerary
  const n = clock.horizonDays + back
  // Nobody looked since the last count, so only a centre counted today has used up part of tonight's hazard.
  const firstDayShare = back === 0 ? clock.shareOfTodayLeft : 1
  const residual = residualOf(stages[firstStage]!.estimate, entryDay, age, n, firstDayShare)
  const here = { enters: new Float64Array(n), present: residual.present, wasIn: 1 }
  const later = walkFrom(stages, firstStage + 1, residual.onward, clock.today - back, work)
  return { from: firstStage, back, walks: [here, ...later], residual, age, firstDayShare }
}

/** Ready: in the next stage from today on, or in its last place for one more night. */
function walkReady(itinerary: Itinerary, clock: Clock, work: Work): ItineraryWalk {
  const { firstStage, stages } = itinerary
  if (firstStage + 1 < stages.length) {
    const next = { ...itinerary, firstStage: firstStage + 1, isReady: false }
    return walkCurrent(next, 0, 0, clock.today, clock, work)
  }
  const present = oneOn(0, clock.horizonDays)
  const here = { enters: new Float64Array(clock.horizonDays), present, wasIn: 1 }
  return { from: firstStage, back: 0, walks: [here], residual: undefined, age: 0, firstDayShare: 1 }
}

/** A vector that is 1 on one day; all 0 when that day lies beyond the horizon. */
export function oneOn(day: number, days: number): Float64Array {
  const vector = new Float64Array(days)
  if (day < days) vector[day] = 1
  return vector
}

/**
 * The pools a walk occupies, each once, from today on. Stages that follow one another in one pool are one
 * occupation, with one cleaning after it; its need is that of the largest size among them.
 */
export function poolPresences(
  stages: readonly PathStage[],
  walk: Pick<ItineraryWalk, 'from' | 'back' | 'walks'>,
  count: Count,
  turnaroundOf: (poolId: string) => number,
): PoolPresence[] {
  const found = new Map<string, { need: Need; presence: Float64Array }>()
  for (let i = 0; i < walk.walks.length; ) {
    const { poolId, need: firstNeed } = stages[walk.from + i]!
    let need = firstNeed
    let end = i + 1
    while (end < walk.walks.length && stages[walk.from + end]!.poolId === poolId) {
      const next = stages[walk.from + end]!.need
      if (next.size > need.size) need = next
      end++
    }
    if (poolId !== null) {
      const occupied = occupation(walk.walks.slice(i, end), count, turnaroundOf(poolId)).subarray(walk.back)
      const before = found.get(poolId)
      if (before) addTo(before.presence, occupied)
      else found.set(poolId, { need, presence: occupied.slice() })
    }
    i = end
  }
  return Array.from(found, ([poolId, { need, presence }]) => ({ poolId, need, presence }))
}

/** Chance or expected number in a run of stages, cleaning included, by day of the axis. */
function occupation(run: readonly StageWalk[], count: Count, turnaroundDays: number): Float64Array {
  const first = run[0]!
  const n = first.present.length
  const inside =
    run.length === 1 && turnaroundDays === 0 && count === 'midnight' ? first.present : new Float64Array(n)
  if (inside === first.present) return inside
  for (const { present } of run) for (let d = 0; d < n; d++) inside[d] = inside[d]! + present[d]!
  const occupied = turnaroundDays === 0 ? inside : withCleaning(inside, first, turnaroundDays)
  if (count === 'midnight') return occupied
  const counted = new Float64Array(n)
  for (let d = 0; d < n; d++) counted[d] = (d === 0 ? first.wasIn : occupied[d - 1]!) + first.enters[d]!
  return counted
}

/** Adds to each day those who left within the last `turnaroundDays`: their place is being cleaned. */
function withCleaning(inside: Float64Array, first: StageWalk, turnaroundDays: number): Float64Array {
  const n = inside.length
  const occupied = Float64Array.from(inside)
  let before = first.wasIn
  for (let d = 0; d < n; d++) {
    const left = Math.max(0, before + first.enters[d]! - inside[d]!)
    before = inside[d]!
    for (let u = d; u < Math.min(n, d + turnaroundDays); u++) occupied[u] = occupied[u]! + left
  }
  return occupied
}

function addTo(total: Float64Array, more: Float64Array): void {
  for (let d = 0; d < total.length; d++) total[d] = total[d]! + more[d]!
}
