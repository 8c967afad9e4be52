/**
 * A pool's weeks ahead: what will be wanted, how likely it is to be short, and by how much.
 * Promise: exact figures for free re-housing within the centre (so a lower bound on shortage). Index 0 is today;
 * quantities are enclosures; quantiles are the smallest count whose probability reaches the level.
 */
import { convolveCounts } from '#lib/numerics/convolution.ts'
import type { Work } from '#lib/numerics/work.ts'
import type { Counts } from './company.ts'
import type { PoolDemand } from './demand.ts'
import { NO_OVERFLOW, newScratch, overflowInto, type Slice } from './overflow.ts'

/** The levels of the fan. */
export const QUANTILE_LEVELS = [0.1, 0.25, 0.5, 0.75, 0.9] as const

/** Demand for enclosures of at least `size` against how many there are, by day. */
export type ThresholdForecast = {
  readonly size: number
  readonly capacityByDay: Int32Array
  readonly meanByDay: Float64Array
  readonly p10ByDay: Int32Array
  readonly p25ByDay: Int32Array
  readonly p50ByDay: Int32Array
  readonly p75ByDay: Int32Array
  readonly p90ByDay: Int32Array
  /** P(demand of at least this size > enclosures of at least this size). */
  readonly shortByDay: Float64Array
}

/**
 * `thresholds[0]` is the whole pool, one a step. `shortByDay`: P(some animal is without a proper enclosure);
 * `expectedShortByDay`: enclosures short, on average.
 */
export type PoolForecast = {
  readonly poolId: string
  readonly thresholds: readonly ThresholdForecast[]
  readonly shortByDay: Float64Array
  readonly expectedShortByDay: Float64Array
}

/** A cumulated probability this close below a level reaches it: rounding must not move a quantile by one. */
const LEVEL_ROUNDING = 1e-12

/** The forecast of one pool from its demand. Cost: one convolution a day for each step beyond the first. */
export function summarise(demand: PoolDemand, work: Work): PoolForecast {
  const { pool, days, classes } = demand
  const thresholds: ThresholdForecast[] = []
  let counts: Counts | undefined
  let capacity = new Int32Array(days)
  for (let u = classes.length - 1; u >= 0; u--) {
    const { size, capacityByDay } = pool.steps[u]!
    const own = classes[u]!.wanted
    counts = counts ? sumByDay(counts, own, days, work) : own
    capacity = capacity.map((above, d) => above + capacityByDay[d]!)
    thresholds.unshift(thresholdOf(size, capacity, counts, days))
  }
  return { poolId: pool.id, thresholds, ...shortage(demand, thresholds, work) }
}

/** Chance and expectation of shortage; for a single step they are those of its threshold. */
function shortage(
  demand: PoolDemand,
  thresholds: readonly ThresholdForecast[],
  work: Work,
): Pick<PoolForecast, 'shortByDay' | 'expectedShortByDay'> {
  const expectedShortByDay = new Float64Array(demand.days)
  const shortByDay = new Float64Array(demand.days)
  const scratch = newScratch()
  for (let d = 0; d < demand.days; d++) {
    let overflow = NO_OVERFLOW
    demand.classes.forEach(({ wanted }, u) => {
      const capacity = demand.pool.steps[u]!.capacityByDay[d]!
      overflow = overflowInto(overflow, sliceOf(wanted, d), capacity, scratch, work)
    })
    let short = 0
    let expected = 0
    for (let k = overflow.top; k > 0; k--) {
      short += overflow.pmf[overflow.at + k]!
      expected += k * overflow.pmf[overflow.at + k]!
    }
    shortByDay[d] = thresholds.length === 1 ? thresholds[0]!.shortByDay[d]! : short
    expectedShortByDay[d] = expected
  }
  return { shortByDay, expectedShortByDay }
}

/** One day of a table of counts. */
export function sliceOf(counts: Counts, day: number): Slice {
  return { pmf: counts.pmf, at: day * counts.stride, top: counts.top[day]! }
}

function sumByDay(a: Counts, b: Counts, days: number, work: Work): Counts {
  const stride = a.stride + b.stride
  const pmf = new Float64Array(days * stride)
  const top = new Int32Array(days)
  for (let d = 0; d < days; d++) {
    top[d] = convolveCounts(
      a.pmf,
      d * a.stride,
      a.top[d]!,
      b.pmf,
      d * b.stride,
      b.top[d]!,
      pmf,
      d * stride,
      work,
    )
  }
  return { stride, pmf, top }
}

function thresholdOf(
  size: number,
  capacityByDay: Int32Array,
  counts: Counts,
  days: number,
): ThresholdForecast {
  const meanByDay = new Float64Array(days)
  const shortByDay = new Float64Array(days)
  const quantiles = QUANTILE_LEVELS.map(() => new Int32Array(days))
  for (let d = 0; d < days; d++) {
    const at = d * counts.stride
    const top = counts.top[d]!
    let below = 0
    let mean = 0
    let level = 0
    for (let k = 0; k <= top; k++) {
      const p = counts.pmf[at + k]!
      below += p
      mean += k * p
      while (level < QUANTILE_LEVELS.length && below >= QUANTILE_LEVELS[level]! - LEVEL_ROUNDING) {
        quantiles[level++]![d] = k
      }
    }
    let short = 0
    for (let k = top; k > capacityByDay[d]!; k--) short += counts.pmf[at + k]!
    meanByDay[d] = mean
    shortByDay[d] = short
  }
  const [p10ByDay, p25ByDay, p50ByDay, p75ByDay, p90ByDay] = quantiles
  return {
    size,
    capacityByDay,
    meanByDay,
    p10ByDay: p10ByDay!,
    p25ByDay: p25ByDay!,
    p50ByDay: p50ByDay!,
    p75ByDay: p75ByDay!,
    p90ByDay: p90ByDay!,
    shortByDay,
  }
}
