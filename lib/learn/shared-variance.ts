/**
 * How much of what will be wanted nobody can know, however many animals: what all stays of a kind and all arrivals of a
 * season share.
 * Promise: the variance between forecasts that each take one draw of everything shared, by pool, size and day.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { LearnedDoubt } from '#lib/domain/learned-doubt.ts'
import type { Counts } from '#lib/forecast/company.ts'
import type { Forecast } from '#lib/forecast/forecast.ts'

/** Draws behind a variance: its own error is then 30 % (chi-squared with 23 degrees of freedom). */
export const SHARED_DRAWS = 24

/** Sums over draws, from which a variance comes: of what was wanted, and of its square. */
type Sums = { readonly sum: Float64Array; readonly square: Float64Array }

export type SharedVariance = {
  /** Adds the forecast of one draw; all draws have the same pools and days. */
  readonly add: (drawn: Forecast) => void
  /** The variances of the draws added, from the first one's day on. Throws RangeError before the second. */
  readonly doubts: () => LearnedDoubt[]
}

/** Gathers draws one at a time: a forecast is large, what is kept of it is not. */
export function newSharedVariance(): SharedVariance {
  const sums = new Map<string, { poolId: string; size: number; of: Sums }>()
  let draws = 0
  let from: DayNumber = 0
  return {
    add: drawn => {
      draws++
      from = drawn.input.today
      for (const [poolId, { pool, classes, days }] of drawn.demands) {
        for (const [u, { wanted }] of classes.entries()) {
          const { size } = pool.steps[u]!
          const key = `${poolId}|${size}`
          const kept = sums.get(key) ?? { poolId, size, of: newSums(days) }
          sums.set(key, kept)
          for (let d = 0; d < days; d++) addTo(kept.of, d, meanOf(wanted, d))
        }
      }
    },
    doubts: () => {
      if (draws < 2) throw new RangeError(`draws need at least 2, got ${draws}`)
      return [...sums.values()].map(({ poolId, size, of }) => ({
        poolId,
        size,
        from,
        // Rounding may leave a hair below 0 where nothing differs.
        varianceByDay: of.sum.map((sum, d) =>
          Math.max(0, (of.square[d]! - (sum * sum) / draws) / (draws - 1)),
        ),
      }))
    },
  }
}

function newSums(days: number): Sums {
  return { sum: new Float64Array(days), square: new Float64Array(days) }
}

function addTo({ sum, square }: Sums, d: number, mean: number): void {
  sum[d] = sum[d]! + mean
  square[d] = square[d]! + mean * mean
}

function meanOf({ pmf, stride, top }: Counts, day: number): number {
  let mean = 0
  for (let k = 1; k <= top[day]!; k++) mean += k * pmf[day * stride + k]!
  return mean
}
