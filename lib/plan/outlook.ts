/**
 * The forecast as placement asks it: the way of newcomers, the pools they take up, the price of the n-th of them.
 * Promise: the same forecast answers the same; each price is computed once. Newcomers are in no count of the
 * forecast, so they never compete with themselves. Refuses pools that the forecast does not have.
 */
import { demandWith } from '#lib/forecast/demand.ts'
import { type Forecast, getDemand } from '#lib/forecast/forecast.ts'
import type { Itinerary, Need, PathStage, Pool, StageEstimate } from '#lib/forecast/model.ts'
import { poolPresences, walkItinerary } from '#lib/forecast/presence.ts'
import { priceByDay } from '#lib/forecast/price.ts'
import { newWork } from '#lib/numerics/work.ts'
import type { Outlook, StageHome, StageWalk, Walk } from './model.ts'

/** A stay is followed this long beyond the horizon: a date gate can hold it for a year. What lasts longer is not counted. */
const BEYOND_DAYS = 366

/** Stands for what follows the last stage, so that the day of release is walked to as well. */
const AFTER_CARE: StageEstimate = {
  stage: 'unlimited activity',
  ready: { kind: 'length', length: { medianDays: 1, p90Days: 2 } },
  shares: { onward: 1, died: 0, euthanased: 0, left: 0 },
  died: { medianDays: 1, p90Days: 2 },
  euthanased: { medianDays: 1, p90Days: 2 },
}

/** No company key of the network has this name. */
const NEWCOMER = 'newcomer'
const ANY_NEED: Need = { housing: 'hospital-cage', size: 1, company: NEWCOMER, stock: 1 }

/**
 * The outlook of a forecast. Prices are kept for as long as the outlook is: make one a forecast and answer many
 * questions from it. `prices` throws RangeError for a pool that the forecast does not have.
 */
export function outlookOf(made: Forecast): Outlook {
  const { today, horizonDays } = made.input
  const kept = new Map<string, Float64Array>()
  return {
    today,
    horizonDays,
    walk: (estimates, entersOn) => walkOf(made, estimates, entersOn),
    occupancy: (path, entersOn) => occupancy(made, path, entersOn),
    prices: (poolId, need, nth) => {
      const key = JSON.stringify([poolId, need.size, need.company, need.stock, nth])
      const prices = kept.get(key) ?? priceOfNth(made, poolId, need, nth)
      kept.set(key, prices)
      return prices
    },
  }
}

/** The price of the n-th: n - 1 like it are there for certain. */
function priceOfNth(made: Forecast, poolId: string, need: Need, nth: number): Float64Array {
  const demand = getDemand(made, poolId)
  if (nth === 1 || need.size > largestSize(demand.pool)) return priceByDay(demand, need)
  const presence = new Float64Array(made.input.horizonDays).fill(1)
  const before = { casualtyId: NEWCOMER, count: nth - 1, presence }
  return priceByDay(demandWith(demand, need, before, newWork()), need)
}

function newcomer(stages: readonly PathStage[], entersOn: number): Itinerary {
  return {
    casualtyId: NEWCOMER,
    count: 1,
    stages,
    firstStage: 0,
    enteredStageOn: entersOn,
    isReady: false,
    unseenDays: 0,
  }
}

function walkOf({ input }: Forecast, estimates: readonly StageEstimate[], entersOn: number): Walk {
  const days = input.horizonDays
  const stages = [...estimates, AFTER_CARE].map(estimate => ({ estimate, need: ANY_NEED, poolId: null }))
  const clock = { ...input, horizonDays: days + BEYOND_DAYS }
  const { walks, residual } = walkItinerary(newcomer(stages, entersOn), clock, newWork())
  let reachProbability = 1
  return walks.map(({ enters, present, wasIn }, stage): StageWalk => {
    const entered = enters.slice(0, days)
    if (wasIn === 1) entered[0] = 1
    const walk = {
      entered,
      present: present.subarray(0, days),
      daysBeyond: present.subarray(days).reduce((sum, there) => sum + there, 0),
      reachProbability,
    }
    const isNow = stage === 0 && residual !== undefined
    reachProbability = isNow ? residual.onwardEver : reachProbability * (estimates[stage]?.shares.onward ?? 0)
    return walk
  })
}

function occupancy({ input }: Forecast, path: readonly PathStage[], entersOn: number) {
  const walk = walkItinerary(newcomer(path, entersOn), input, newWork())
  const turnaroundOf = (poolId: string) => {
    const pool = input.pools.find(({ id }) => id === poolId)
    if (pool === undefined) throw new RangeError(`poolId needs a pool of the forecast, got ${poolId}`)
    return pool.turnaroundDays
  }
  return poolPresences(path, walk, 'midnight', turnaroundOf).map(each => ({
    ...each,
    // Cleaning after an earlier stay can overlap a return to the same pool: one occupant still, as the forecast counts.
    presence: each.presence.map(p => Math.min(1, p)),
  }))
}

/**
 * Where a stage would be lived at a centre: the first kind of housing, in order of preference, of which the centre has
 * a pool with a step of at least the size; null where it has none. Sizes are metres of flight for aviaries and size
 * ranks elsewhere, never compared across kinds of housing.
 */
export function findHome(pools: readonly Pool[], centreId: string, needs: readonly Need[]): StageHome | null {
  for (const need of needs) {
    const found = pools.find(
      pool => pool.centreId === centreId && pool.housing === need.housing && largestSize(pool) >= need.size,
    )
    if (found !== undefined) return { poolId: found.id, need }
  }
  return null
}

function largestSize(pool: Pool): number {
  return pool.steps.reduce((largest, { size }) => Math.max(largest, size), 0)
}
