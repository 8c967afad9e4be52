/**
 * The forecast as placement asks it: the way of newcomers, the pools they take up, the price of the n-th of them.
 * Promise: the same forecast answers the same; each price is computed once. Newcomers are in no count of the
 * forecast, so they never compete with themselves. Refuses pools that the forecast does not have.
 */
import { companyOf, demandWith, type PoolDemand } from '#lib/forecast/demand.ts'
import { type Forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import type { Itinerary, Need, PathStage, Pool, StageEstimate } from '#lib/forecast/model.ts'
import { poolPresences, walkItinerary } from '#lib/forecast/presence.ts'
import { priceByDay } from '#lib/forecast/price.ts'
import { onwardEver } from '#lib/forecast/walk.ts'
import { newRemember, type Remember } from '#lib/kernel/remember.ts'
import { newWork } from '#lib/numerics/work.ts'
import { shortageByDay } from './litter-shortage.ts'
import type { Outlook, StageWalk, Walk } from './model.ts'

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
 * The outlook of a forecast. Ways and rises are kept for as long as the outlook is, prices as long as the demand they
 * belong to: make one a forecast and answer many questions from it. `prices` throws RangeError for a pool that the forecast does not have.
 */
export function outlookOf(made: Forecast): Outlook {
  const { today, horizonDays } = made.input
  const wayOf = rememberingWays(made)
  const prices: Outlook['prices'] = (poolId, need, nth) => {
    const demand = getDemand(made, poolId)
    const remember = pricesByDemand.get(demand) ?? newRemember(PRICES_MAX)
    pricesByDemand.set(demand, remember)
    return remember(JSON.stringify([need.size, companyOf(need).key, nth]), () =>
      priceOfNth(demand, need, nth),
    )
  }
  const rises = new WeakMap<Float64Array, Map<string, Float64Array>>()
  const riseOf: Outlook['shortage'] = (poolId, need, presence, count) => {
    const ofPresence = rises.get(presence) ?? new Map<string, Float64Array>()
    rises.set(presence, ofPresence)
    const key = JSON.stringify([poolId, need.size, companyOf(need).key, count])
    const known = ofPresence.get(key) ?? riseWith(made, poolId, need, presence, count)
    ofPresence.set(key, known)
    return known
  }
  return {
    today,
    horizonDays,
    walk: (estimates, entersOn) => wayOf(estimates, entersOn).walk,
    occupancy: (path, entersOn) => {
      const estimates = path.map(({ estimate }) => estimate)
      return occupancy(made, path, wayOf(estimates, entersOn).found)
    },
    prices,
    shortage: (poolId, need, presence, count) => {
      if (count > PRICED_SINGLY_MAX) return riseOf(poolId, need, presence, count)
      const each = Array.from({ length: count }, (_, before) => prices(poolId, need, before + 1))
      return shortageByDay(count, presence, each)
    },
  }
}

/** A demand that a change leaves as it was keeps its prices from one forecast to the next. */
const pricesByDemand = new WeakMap<PoolDemand, Remember<Float64Array>>()
const PRICES_MAX = 512

/** Up to here the price of each newcomer is cheaper, since it is kept; above it one convolution a pool is. */
const PRICED_SINGLY_MAX = 8

/** The rise of expected places short with `count` newcomers in the pool's demand; the same number as by prices. */
function riseWith(made: Forecast, poolId: string, need: Need, presence: Float64Array, count: number) {
  const demand = getDemand(made, poolId)
  const flock = { casualtyId: NEWCOMER, count, presence }
  const before = poolForecast(demand).expectedShortByDay
  const after = poolForecast(demandWith(demand, need, flock, newWork())).expectedShortByDay
  // Rounding can leave a difference of nothing a little below it.
  return after.map((short, day) => Math.max(0, short - before[day]!))
}

/** The price of the n-th: n - 1 like it are there for certain. */
function priceOfNth(demand: PoolDemand, need: Need, nth: number): Float64Array {
  const others = othersThatMatter(demand.pool, need, nth - 1)
  if (others === 0 || need.size > largestSize(demand.pool)) return priceByDay(demand, need)
  const presence = new Float64Array(demand.days).fill(1)
  const before = { casualtyId: NEWCOMER, count: others, presence }
  return priceByDay(demandWith(demand, need, before, newWork()), need)
}

/**
 * Once those before it fill every enclosure that could serve it, only how full their last one is matters: so many
 * have the same price as `others`, and fewer are counted.
 */
function othersThatMatter(pool: Pool, need: Need, others: number): number {
  const { stock } = companyOf(need)
  const serving = pool.steps.filter(({ size }) => size >= need.size)
  const most = serving.reduce((sum, { capacityByDay }) => sum + Math.max(0, ...capacityByDay), 0)
  const full = most * stock
  return others <= full ? others : full + ((others - full) % stock)
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

/** The way through the stages of a plan and one more for what follows, on an axis longer than the horizon. */
type Found = ReturnType<typeof walkItinerary>
type Way = { readonly found: Found; readonly walk: Walk }
type WayOf = (estimates: readonly StageEstimate[], entersOn: number) => Way

/** Every option of a call goes the same way, so the last few ways are kept. */
const WAYS_KEPT = 4

function rememberingWays({ input }: Forecast): WayOf {
  const clock = { ...input, horizonDays: input.horizonDays + BEYOND_DAYS }
  const ways: { estimates: readonly StageEstimate[]; entersOn: number; way: Way }[] = []
  return (estimates, entersOn) => {
    const isSame = (other: readonly StageEstimate[]) =>
      other.length === estimates.length && other.every((estimate, at) => estimate === estimates[at])
    const known = ways.find(each => each.entersOn === entersOn && isSame(each.estimates))
    if (known !== undefined) return known.way
    const stages = [...estimates, AFTER_CARE].map(estimate => ({ estimate, need: ANY_NEED, poolId: null }))
    const found = walkItinerary(newcomer(stages, entersOn), clock, newWork())
    const way = { found, walk: walkOf(found, estimates, input) }
    ways.unshift({ estimates, entersOn, way })
    ways.splice(WAYS_KEPT)
    return way
  }
}

function walkOf(
  { walks, residual }: Found,
  estimates: readonly StageEstimate[],
  { today, horizonDays: days }: Forecast['input'],
): Walk {
  let reachProbability = 1
  return walks.map(({ enters, present, wasIn }, stage): StageWalk => {
    const entered = enters.slice(0, days)
    if (wasIn === 1) entered[0] = 1
    const walk = {
      entered,
      present: present.slice(0, days),
      daysBeyond: present.subarray(days).reduce((sum, there) => sum + there, 0),
      reachProbability,
    }
    const isNow = stage === 0 && residual !== undefined
    const estimate = estimates[stage]
    if (isNow) reachProbability = residual.onwardEver
    else if (estimate === undefined) reachProbability = 0
    else reachProbability = onwardEver(estimate, { enters, axisStart: today, reach: reachProbability })
    return walk
  })
}

function occupancy({ input }: Forecast, path: readonly PathStage[], { walks, ...way }: Found) {
  const days = input.horizonDays
  const turnaroundOf = (poolId: string) => {
    const pool = input.pools.find(({ id }) => id === poolId)
    if (pool === undefined) throw new RangeError(`poolId needs a pool of the forecast, got ${poolId}`)
    return pool.turnaroundDays
  }
  const lived = walks.slice(0, path.length).map(walk => ({
    enters: walk.enters.slice(0, days),
    present: walk.present.slice(0, days),
    wasIn: walk.wasIn,
  }))
  return poolPresences(path, { ...way, walks: lived }, 'midnight', turnaroundOf).map(each => ({
    ...each,
    // Cleaning after an earlier stay can overlap a return to the same pool: one occupant still, as the forecast counts.
    presence: each.presence.map(p => Math.min(1, p)),
  }))
}

function largestSize(pool: Pool): number {
  return pool.steps.reduce((largest, { size }) => Math.max(largest, size), 0)
}
