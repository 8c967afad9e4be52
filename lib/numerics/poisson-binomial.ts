/**
 * The number of successes among independent trials of unlike probability: one more trial, one fewer.
 * Promise: adding is exact convolution; removing undoes it to about 1e-16 a step. Probability vectors sit in a
 * larger buffer: `at` is where count 0 lies, `top` the largest count. Source: Hong 2013 (direct convolution).
 */
import type { Work } from './work.ts'

/** Mass above the top count that is too small to carry: sums of 1e5 such cuts stay below 1e-11. */
export const NEGLIGIBLE = 1e-17

/**
 * Adds one trial of probability p in [0, 1] in place and returns the new top. Needs room for count top + 1.
 * Two multiply-adds a count.
 */
export function addTrial(pmf: Float64Array, at: number, top: number, p: number, work: Work): number {
  const q = 1 - p
  pmf[at + top + 1] = pmf[at + top]! * p
  for (let k = at + top; k > at; k--) pmf[k] = pmf[k]! * q + pmf[k - 1]! * p
  pmf[at] = pmf[at]! * q
  work.multiplyAdds += 2 * (top + 1)
  let newTop = top + 1
  while (newTop > 0 && pmf[at + newTop]! < NEGLIGIBLE) pmf[at + newTop--] = 0
  return newTop
}

/**
 * Removes one trial of probability p that was added before, in place, and returns the new top: forward for
 * p <= 1/2, backward above, since the other direction multiplies rounding errors at every count.
 * Two multiply-adds a count.
 */
export function removeTrial(pmf: Float64Array, at: number, top: number, p: number, work: Work): number {
  work.multiplyAdds += 2 * (top + 1)
  if (p <= 0.5) {
    const scale = 1 / (1 - p)
    const back = p * scale
    let before = 0
    for (let k = at; k <= at + top; k++) {
      before = pmf[k]! * scale - before * back
      pmf[k] = before
    }
    // The last count can only be reached with the removed trial; what is left there is rounding.
    if (top > 0 && p > 0 && Math.abs(pmf[at + top]!) < REMAINDER) {
      pmf[at + top] = 0
      return top - 1
    }
    return top
  }
  const scale = 1 / p
  const back = (1 - p) * scale
  let above = 0
  for (let k = at + top; k > at; k--) {
    const here = pmf[k]! * scale - above * back
    pmf[k] = above
    above = here
  }
  pmf[at] = above
  return Math.max(0, top - 1)
}

/** Rounding left at the last count after a removal. */
const REMAINDER = 1e-14
