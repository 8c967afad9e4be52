/**
 * The forecast of a whole network: demand for every pool on every day, exactly, from one set of estimates.
 * Promise: the same input gives the same forecast; one casualty more or less touches only the pools on its way and
 * equals a rebuild within 1e-10. Refuses a path through a pool that does not exist.
 */
import { newWork, type Work } from '#lib/numerics/work.ts'
import { poolArrivals } from './arrivals.ts'
import {
  buildDemand,
  type Claim,
  demandWith,
  demandWithout,
  type PoolDemand,
  rebuildDemand,
} from './demand.ts'
import { type ForecastMemory, newForecastMemory, recallClaims } from './forecast-memory.ts'
import type { ForecastInput, Itinerary, Need, Pool } from './model.ts'
import { type PoolForecast, summarise } from './pool-forecast.ts'
import { type Count, poolPresences, walkItinerary } from './presence.ts'
import { priceByDay } from './price.ts'

/** A forecast: what it was made from, and the demand for each pool. Treat it as frozen. */
export type Forecast = { readonly input: ForecastInput; readonly demands: ReadonlyMap<string, PoolDemand> }

const summaries = new WeakMap<PoolDemand, PoolForecast>()

/**
 * Computes the demand for every pool of the input, counted at midnight. With the memory of earlier forecasts, what
 * has not changed since keeps its identity; the numbers are the same as without.
 * Throws RangeError on a path through an unknown pool, on capacities or arrivals shorter than the horizon, or on an
 * estimate that is none (see stage-law.ts).
 */
export function forecast(
  input: ForecastInput,
  work: Work = newWork(),
  memory: ForecastMemory = newForecastMemory(),
): Forecast {
  for (const pool of input.pools) checkPool(pool, input.horizonDays)
  const claims = claimsOn(input, 'midnight', undefined, work, memory)
  const kept = input.pools.map(pool => {
    const before = memory.demands.get(pool.id)
    return rebuildDemand(pool, input.horizonDays, claims.get(pool.id)!, before, work)
  })
  memory.demands = new Map(kept.map(one => [one.demand.pool.id, one]))
  return { input, demands: new Map(kept.map(({ demand }) => [demand.pool.id, demand])) }
}

/**
 * The demand for one pool at its second count: in at last midnight plus the day's arrivals. For intake and critical
 * housing, where the midnight count misses those who come and go within a day.
 */
export function dayCountDemand({ input }: Forecast, poolId: string, work: Work = newWork()): PoolDemand {
  const pool = poolById(input).get(poolId)
  if (!pool) throw new RangeError(`poolId needs a pool of the forecast, got ${poolId}`)
  const claims = claimsOn(input, 'day', poolId, work, newForecastMemory())
  return buildDemand(pool, input.horizonDays, claims.get(poolId)!, work)
}

/** The demand for a pool of the forecast. Throws RangeError for one it does not have. */
export function getDemand({ demands }: Forecast, poolId: string): PoolDemand {
  const demand = demands.get(poolId)
  if (!demand) throw new RangeError(`poolId needs a pool of the forecast, got ${poolId}`)
  return demand
}

/** Fan, chance of shortage and expected shortage of a pool; computed once for each demand. */
export function poolForecast(demand: PoolDemand, work: Work = newWork()): PoolForecast {
  const kept = summaries.get(demand)
  if (kept) return kept
  const made = summarise(demand, work)
  summaries.set(demand, made)
  return made
}

/**
 * The added shortage of one more animal of this need in a pool, by day (price.ts). With `without`, a casualty of the
 * forecast is taken out first: an animal does not compete with itself.
 */
export function price(made: Forecast, poolId: string, need: Need, without?: string): Float64Array {
  const work = newWork()
  const demand = getDemand(made, poolId)
  return priceByDay(without === undefined ? demand : demandWithout(demand, without, work), need, work)
}

/** The forecast with one more itinerary. Throws RangeError when its casualty is in it already. */
export function withItinerary(made: Forecast, itinerary: Itinerary, work: Work = newWork()): Forecast {
  const { input } = made
  if (input.itineraries.some(other => other.casualtyId === itinerary.casualtyId)) {
    throw new RangeError(`casualtyId needs to be new to the forecast, got ${itinerary.casualtyId}`)
  }
  const demands = new Map(made.demands)
  for (const { poolId, need, member } of memberClaims(itinerary, input, 'midnight', work)) {
    demands.set(poolId, demandWith(getDemand(made, poolId), need, member, work))
  }
  return { input: { ...input, itineraries: [...input.itineraries, itinerary] }, demands }
}

/** The forecast without a casualty; unchanged demands keep their identity. */
export function withoutCasualty(made: Forecast, casualtyId: string, work: Work = newWork()): Forecast {
  const { input } = made
  const demands = new Map(made.demands)
  for (const itinerary of input.itineraries) {
    if (itinerary.casualtyId !== casualtyId) continue
    for (const { poolId } of itinerary.stages) {
      if (poolId !== null) demands.set(poolId, demandWithout(demands.get(poolId)!, casualtyId, work))
    }
  }
  const itineraries = input.itineraries.filter(other => other.casualtyId !== casualtyId)
  return { input: { ...input, itineraries }, demands }
}

/** Who claims a pool on a day, the likeliest first: chance that each (or each of a litter) is there. */
export function listClaimants(
  demand: PoolDemand,
  day: number,
): { casualtyId: string; count: number; probability: number }[] {
  return demand.classes
    .flatMap(({ companies }) => companies.flatMap(({ members }) => members))
    .map(({ casualtyId, count, presence }) => ({ casualtyId, count, probability: presence[day]! }))
    .filter(({ probability }) => probability > 0)
    .sort((a, b) => b.probability - a.probability || (a.casualtyId < b.casualtyId ? -1 : 1))
}

function claimsOn(
  input: ForecastInput,
  count: Count,
  only: string | undefined,
  work: Work,
  memory: ForecastMemory,
): Map<string, Claim[]> {
  const pools = poolById(input)
  const claims = new Map<string, Claim[]>(input.pools.map(pool => [pool.id, []]))
  const touches = (stages: Itinerary['stages']) =>
    only === undefined || stages.some(({ poolId }) => poolId === only)
  for (const itinerary of input.itineraries) {
    if (!touches(itinerary.stages)) continue
    const found = recallClaims(memory, itinerary, input, turnaroundIn(pools), () =>
      memberClaims(itinerary, input, count, work),
    )
    for (const claim of found) claims.get(claim.poolId)!.push(claim)
  }
  for (const stream of input.arrivals) {
    if (!touches(stream.stages)) continue
    const found = recallClaims(memory, stream, input, turnaroundIn(pools), () =>
      poolArrivals(stream, input, count, turnaroundIn(pools), work),
    )
    for (const claim of found) claims.get(claim.poolId)!.push(claim)
  }
  return claims
}

function memberClaims(itinerary: Itinerary, input: ForecastInput, count: Count, work: Work) {
  const walk = walkItinerary(itinerary, input, work)
  return poolPresences(itinerary.stages, walk, count, turnaroundIn(poolById(input))).map(
    ({ poolId, need, presence }) => ({
      poolId,
      need,
      member: { casualtyId: itinerary.casualtyId, count: itinerary.count, presence },
    }),
  )
}

const poolMaps = new WeakMap<readonly Pool[], ReadonlyMap<string, Pool>>()

function poolById({ pools }: ForecastInput): ReadonlyMap<string, Pool> {
  const kept = poolMaps.get(pools) ?? new Map(pools.map(pool => [pool.id, pool]))
  poolMaps.set(pools, kept)
  return kept
}

function turnaroundIn(pools: ReadonlyMap<string, Pool>): (poolId: string) => number {
  return poolId => {
    const pool = pools.get(poolId)
    if (!pool) throw new RangeError(`poolId needs a pool of the forecast, got ${poolId}`)
    return pool.turnaroundDays
  }
}

function checkPool(pool: Pool, days: number): void {
  if (pool.steps.length === 0) throw new RangeError(`pool needs at least one step, got none in ${pool.id}`)
  pool.steps.forEach(({ size, capacityByDay }, u) => {
    if (capacityByDay.length < days) {
      throw new RangeError(`capacityByDay needs ${days} days, got ${capacityByDay.length} in ${pool.id}`)
    }
    if (u > 0 && size <= pool.steps[u - 1]!.size) {
      throw new RangeError(
        `steps need ascending sizes, got ${size} after ${pool.steps[u - 1]!.size} in ${pool.id}`,
      )
    }
  })
}
