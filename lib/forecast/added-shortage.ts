/**
 * The shortage that newcomers add: to one pool on one day, and to the network over the horizon.
 * Promise: exact in expectation, whatever the correlation over days and stages: E[(D + B - C)+] - E[(D - C)+] =
 * sum over j of P(B >= j) P(D >= C - j + 1). Enclosure-days; a lower bound, as re-housing is free.
 */
import { newWork } from '#lib/numerics/work.ts'
import { type Forecast, getDemand, poolForecast, withItinerary } from './forecast.ts'
import type { Itinerary } from './model.ts'

/**
 * The added shortage in one class without companies: `demand[k]` = P(D = k), `newcomers[j]` = P(B = j), independent,
 * against `capacity` enclosures. Both vectors hold all their mass.
 */
export function addedShortage(
  demand: ArrayLike<number>,
  newcomers: ArrayLike<number>,
  capacity: number,
): number {
  let added = 0
  let atLeast = 0
  for (let j = newcomers.length - 1; j >= 1; j--) {
    atLeast += newcomers[j]!
    let full = 0
    for (let k = demand.length - 1; k >= Math.max(0, capacity - j + 1); k--) full += demand[k]!
    added += atLeast * full
  }
  return added
}

/**
 * What one itinerary (one casualty or a litter, not yet in the forecast) adds to each pool on its way: enclosures
 * short by day of the horizon. Everything counted: companies, nested classes, cleaning, litter-mates.
 */
export function shortageAddedBy(made: Forecast, itinerary: Itinerary): ReadonlyMap<string, Float64Array> {
  const grown = withItinerary(made, itinerary)
  const added = new Map<string, Float64Array>()
  for (const { poolId } of itinerary.stages) {
    if (poolId === null || added.has(poolId)) continue
    const demand = getDemand(grown, poolId)
    const before = poolForecast(getDemand(made, poolId)).expectedShortByDay
    const after = poolForecast(demand, newWork()).expectedShortByDay
    added.set(
      poolId,
      after.map((short, d) => short - before[d]!),
    )
  }
  return added
}
