/**
 * A forecast distribution of a count, as everything here takes it: the probabilities of 0, 1, 2, ..
 * Promise: what is no distribution, or no count, is refused before it is judged. Nothing is renormalised; what the sum
 * lacks to 1 by rounding lies above the last count, where it is taken as 0.
 */

/** Probabilities of 0 .. length-1; at least 0, sum 1 within SUM_TOLERANCE. */
export type Pmf = ArrayLike<number>

/** Convolutions of hundreds of terms keep 1e-12; a forecast that lost more is wrong, not rounded. */
export const SUM_TOLERANCE = 1e-9
/** Two running sums that differ by less are the same share: sums of a thousand terms err by some 1e-13. */
const SAME_SHARE = 1e-12

/**
 * P(N <= k) for k = 0 .. length-1, at most 1. Throws RangeError where the numbers are no distribution.
 * Error of each: about length x 1e-16.
 */
export function cumulative(pmf: Pmf): Float64Array {
  const sums = new Float64Array(pmf.length)
  let sum = 0
  for (let k = 0; k < pmf.length; k++) {
    const p = pmf[k]!
    if (!(p >= 0 && p <= 1 + SUM_TOLERANCE))
      throw new RangeError(`probability of ${k} needs a number in [0, 1], got ${p}`)
    sum += p
    sums[k] = Math.min(1, sum)
  }
  if (!(Math.abs(sum - 1) <= SUM_TOLERANCE)) throw new RangeError(`distribution needs a sum of 1, got ${sum}`)
  return sums
}

/** The least count k with P(N <= k) >= share. `share` in (0, 1). Throws as cumulative does. */
export function quantileOf(pmf: Pmf, share: number): number {
  if (!(share > 0 && share < 1)) throw new RangeError(`share needs a number in (0, 1), got ${share}`)
  const k = cumulative(pmf).findIndex(sum => sum >= share - SAME_SHARE)
  return k < 0 ? pmf.length - 1 : k
}

/** The part of the forecast's scale that a count takes up: from P(N < count) to P(N <= count). In [0, 1]. */
export type Interval = { readonly from: number; readonly width: number }

/**
 * The interval of a count: from P(N < count), P(N = count) wide; no width where the forecast gave it no chance.
 * Throws RangeError where `count` is not a whole number of at least 0, or as cumulative does.
 */
export function intervalOf(pmf: Pmf, count: number): Interval {
  demandCount(count)
  const sums = cumulative(pmf)
  if (count >= pmf.length) return { from: 1, width: 0 }
  return { from: count === 0 ? 0 : sums[count - 1]!, width: pmf[count]! }
}

/** Throws RangeError where a number is no count. */
export function demandCount(count: number): void {
  if (!(Number.isInteger(count) && count >= 0))
    throw new RangeError(`count needs a whole number of at least 0, got ${count}`)
}

/** The distribution that is sure of one count. Throws as demandCount does. */
export function sureOf(count: number): Float64Array {
  demandCount(count)
  const pmf = new Float64Array(count + 1)
  pmf[count] = 1
  return pmf
}
