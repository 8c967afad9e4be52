/**
 * How future arrivals occupy pools: rates of events by how many enclosure-mates each still has there.
 * Promise: Poisson events thin exactly (Mt/G/infinity; Eick, Massey, Whitt 1993), so a pool's newcomers are compound
 * Poisson with these rates. Brood-mates are independent given their event.
 */
import { delayBy } from '#lib/numerics/convolution.ts'
import type { Work } from '#lib/numerics/work.ts'
import type { ArrivalStream, Need } from './model.ts'
import { type Clock, type Count, oneOn, poolPresences } from './presence.ts'
import { unitWalk } from './unit-walk.ts'
import { type StageWalk, walkFrom } from './walk.ts'

/** `rates[j][d]`: expected number of events of which exactly j + 1 animals are in the pool on day d. */
export type PoolArrivals = {
  readonly poolId: string
  readonly need: Need
  readonly rates: readonly Float64Array[]
}

/**
 * The pools a stream occupies. Today's events count for the part of the day that is left. Where no date ends a stage, all
 * events have the way of the first, later; else single animals go as expected numbers and broods by each day's own way. Throws RangeError when eventsPerDay is
 * shorter than the horizon.
 */
export function poolArrivals(
  stream: ArrivalStream,
  clock: Clock,
  count: Count,
  turnaroundOf: (poolId: string) => number,
  work: Work,
): PoolArrivals[] {
  const n = clock.horizonDays
  if (stream.eventsPerDay.length < n) {
    throw new RangeError(`eventsPerDay needs ${n} days, got ${stream.eventsPerDay.length}`)
  }
  const events = stream.eventsPerDay.slice(0, n)
  events[0] = events[0]! * clock.shareOfTodayLeft
  const { stages, broodSizePmf } = stream
  const presencesOf = (walks: readonly StageWalk[]) =>
    poolPresences(stages, { from: 0, back: 0, walks }, count, turnaroundOf)
  if (stages.every(({ estimate }) => estimate.ready.kind === 'length')) {
    return presencesOf(unitWalk(stages, n, work)).map(({ poolId, need, presence }) => {
      const left = stillThere(broodSizePmf, presence)
      const rates = left.map(chances => {
        const rate = new Float64Array(n)
        delayBy(events, chances, rate, work)
        return rate
      })
      return { poolId, need, rates }
    })
  }
  const presences = (enters: Float64Array) => presencesOf(walkFrom(stages, 0, enters, clock.today, work))
  if (broodSizePmf.length === 1) {
    return presences(events).map(({ poolId, need, presence }) => ({ poolId, need, rates: [presence] }))
  }
  return datedBroods(stream, events, presences)
}

/** Where the calendar decides, each day's events have their own way: one walk a day of arrival. */
function datedBroods(
  stream: ArrivalStream,
  events: Float64Array,
  presences: (enters: Float64Array) => readonly { poolId: string; need: Need; presence: Float64Array }[],
): PoolArrivals[] {
  const n = events.length
  const found = new Map<string, { need: Need; rates: Float64Array[] }>()
  for (let e = 0; e < n; e++) {
    for (const { poolId, need, presence } of presences(oneOn(e, n))) {
      const pool = found.get(poolId) ?? { need, rates: stream.broodSizePmf.map(() => new Float64Array(n)) }
      found.set(poolId, pool)
      const left = stillThere(stream.broodSizePmf, presence)
      for (let j = 0; j < left.length; j++) {
        const rates = pool.rates[j]!
        for (let d = e; d < n; d++) rates[d] = rates[d]! + events[e]! * left[j]![d]!
      }
    }
  }
  return Array.from(found, ([poolId, { need, rates }]) => ({ poolId, need, rates }))
}

/**
 * For each day: P(exactly j + 1 of a brood are there), each with the day's chance, the brood's size being
 * b + 1 with probability broodSizePmf[b]. One spare day at the end, as delayBy reads one beyond.
 */
function stillThere(broodSizePmf: readonly number[], presence: Float64Array): Float64Array[] {
  const n = presence.length
  const left = broodSizePmf.map(() => new Float64Array(n + 1))
  const binomial = new Float64Array(broodSizePmf.length + 1)
  for (let d = 0; d < n; d++) {
    const p = presence[d]!
    binomial.fill(0)
    binomial[0] = 1
    for (let b = 0; b < broodSizePmf.length; b++) {
      for (let k = b + 1; k > 0; k--) binomial[k] = binomial[k]! * (1 - p) + binomial[k - 1]! * p
      binomial[0] = binomial[0]! * (1 - p)
      for (let j = 0; j <= b; j++) left[j]![d] = left[j]![d]! + broodSizePmf[b]! * binomial[j + 1]!
    }
  }
  return left
}
