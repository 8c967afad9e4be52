/**
 * The continuous ranked probability score of a count: how far a whole distribution was from what came.
 * Promise: proper, in the unit of the count, at least 0; of a forecast that is sure of one count the absolute error.
 * Source: Matheson and Winkler 1976; for counts Czado, Gneiting and Held 2009 (both from memory).
 */
import { cumulative, demandCount, type Pmf } from './counts.ts'

/**
 * The sum over k of (F(k) - [count <= k])^2. Smaller is better. Cost: one pass.
 * Throws RangeError where the numbers are no distribution or the count is none.
 */
export function crpsOf(pmf: Pmf, count: number): number {
  demandCount(count)
  const sums = cumulative(pmf)
  const last = sums.length - 1
  // Beyond the last count the forecast says 1, whatever rounding left there.
  let score = Math.max(0, count - sums.length)
  for (let k = 0; k <= last; k++) {
    const off = (k === last ? 1 : sums[k]!) - Number(count <= k)
    score += off * off
  }
  return score
}
