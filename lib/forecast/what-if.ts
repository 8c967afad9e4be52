/**
 * What a change would do to the forecast: other capacity in one pool, another way ahead for one animal.
 * Promise: exact, by the same demand and the same engine as the forecast itself; only touched pools are computed
 * again, untouched demands keep their identity. Nothing here removes an animal from care.
 */
import { newWork, type Work } from '#lib/numerics/work.ts'
import { type Forecast, getDemand, poolForecast, withItinerary, withoutCasualty } from './forecast.ts'
import type { Itinerary, Pool } from './model.ts'

/**
 * The forecast with this pool in place of its namesake: the same sizes, other capacities by day.
 * Throws RangeError for an unknown pool, other sizes, or capacities shorter than the horizon.
 */
export function withPool(made: Forecast, pool: Pool): Forecast {
  const demand = getDemand(made, pool.id)
  const sizes = demand.pool.steps.map(({ size }) => size)
  if (pool.steps.length !== sizes.length || pool.steps.some(({ size }, u) => size !== sizes[u])) {
    throw new RangeError(`pool needs the sizes ${sizes.join(', ')}, got others in ${pool.id}`)
  }
  for (const { capacityByDay } of pool.steps) {
    if (capacityByDay.length < demand.days) {
      throw new RangeError(
        `capacityByDay needs ${demand.days} days, got ${capacityByDay.length} in ${pool.id}`,
      )
    }
  }
  // How many enclosures there are says nothing about how many will be wanted: its doubt stays.
  const steps = pool.steps.map((step, u) => {
    const { doubtByDay } = demand.pool.steps[u]!
    return doubtByDay === undefined ? step : { ...step, doubtByDay }
  })
  const other = { ...pool, steps }
  const pools = made.input.pools.map(one => (one.id === pool.id ? other : one))
  const demands = new Map(made.demands).set(pool.id, { ...demand, pool: other })
  return { input: { ...made.input, pools }, demands }
}

/** A pool with one enclosure more of step `u`, on every day. Throws RangeError for a step it does not have. */
export function withOneMore(pool: Pool, u: number): Pool {
  const step = pool.steps[u]
  if (!step) throw new RangeError(`u needs a step below ${pool.steps.length}, got ${u}`)
  return {
    ...pool,
    steps: pool.steps.with(u, { ...step, capacityByDay: step.capacityByDay.map(n => n + 1) }),
  }
}

/**
 * The forecast with this way ahead of a casualty in place of the one it has.
 * Throws RangeError for a casualty that the forecast does not have, or a way through a pool it does not have.
 */
export function withWay(made: Forecast, way: Itinerary, work: Work = newWork()): Forecast {
  if (!made.input.itineraries.some(other => other.casualtyId === way.casualtyId)) {
    throw new RangeError(`casualtyId needs one of the forecast, got ${way.casualtyId}`)
  }
  return withItinerary(withoutCasualty(made, way.casualtyId, work), way, work)
}

/** Enclosure-days short that `after` has more than `before`, over all pools; below 0 where it has less. */
export function shortageChange(before: Forecast, after: Forecast): number {
  let change = 0
  for (const [poolId, demand] of after.demands) {
    const was = getDemand(before, poolId)
    if (was === demand) continue
    const { expectedShortByDay } = poolForecast(demand)
    poolForecast(was).expectedShortByDay.forEach((short, d) => {
      change += expectedShortByDay[d]! - short
    })
  }
  return change
}
