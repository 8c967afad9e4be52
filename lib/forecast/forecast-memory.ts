/**
 * What one forecast leaves for the next: the claims of each way and stream, the demand of each pool.
 * Promise: what is recalled equals what would be computed, since it belongs to the same object, the same hour and the
 * same cleaning days; nothing outlives the objects it was made from but one demand a pool. One hour at a time.
 */
import type { Claim, KeptDemand } from './demand.ts'
import type { ArrivalStream, Itinerary } from './model.ts'
import type { Clock } from './presence.ts'

type PoolClaim = Claim & { readonly poolId: string }
type Way = Itinerary | ArrivalStream

/** Treat as opaque; belongs to one series of forecasts, all counted at midnight. */
export type ForecastMemory = {
  readonly claims: WeakMap<Way, { readonly moment: string; readonly claims: readonly PoolClaim[] }>
  demands: ReadonlyMap<string, KeptDemand>
}

/** A memory that knows nothing yet. */
export function newForecastMemory(): ForecastMemory {
  return { claims: new WeakMap(), demands: new Map() }
}

/**
 * The claims of a way or stream on the pools, made when the memory has none of this hour: the same objects as long
 * as the way, the hour, the horizon and the cleaning days (`turnaroundOf`) of its pools are the same.
 */
export function recallClaims(
  memory: ForecastMemory,
  way: Way,
  { today, horizonDays, shareOfTodayLeft }: Clock,
  turnaroundOf: (poolId: string) => number,
  make: () => readonly PoolClaim[],
): readonly PoolClaim[] {
  const cleaning = way.stages.map(({ poolId }) => (poolId === null ? null : turnaroundOf(poolId)))
  const moment = [today, horizonDays, shareOfTodayLeft, ...cleaning].join()
  const kept = memory.claims.get(way)
  if (kept?.moment === moment) return kept.claims
  const claims = make()
  memory.claims.set(way, { moment, claims })
  return claims
}
