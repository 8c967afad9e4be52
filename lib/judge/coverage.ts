/**
 * How much of an observed count lies in the middle of its forecast.
 * Promise: the mean over the forecast itself is the width of the middle, exactly, for every distribution of counts;
 * the closed interval of quantiles that is usually counted covers more (a right one of 80 % some 84 to 95 %).
 * Source: engine, section 8; the interval is that of the non-randomised transform of Czado, Gneiting and Held 2009.
 */
import { type Interval, intervalOf, type Pmf } from './counts.ts'

/** A middle of the forecast's scale, 0 <= low < high <= 1. */
export type Middle = { readonly low: number; readonly high: number }

/** The middle that pages and tables speak of: 8 chances in 10. */
export const MIDDLE: Middle = { low: 0.1, high: 0.9 }

/**
 * w(y) = |[F(y-1), F(y)] and [low, high]| / f(y), in [0, 1]. Where f(y) = 0 it is the limit of small f(y): 1 where
 * F(y) lies in [low, high], else 0; such a count has no part in the mean under the forecast.
 * Throws RangeError as intervalOf does, or where the middle is none.
 */
export function fractionalCoverage(pmf: Pmf, count: number, { low, high } = MIDDLE): number {
  if (!(low >= 0 && low < high && high <= 1))
    throw new RangeError(`middle needs 0 <= low < high <= 1, got ${low} to ${high}`)
  return shareInside(intervalOf(pmf, count), low, high)
}

/**
 * The mean coverage of a forecast where counts come by `truth`: 0.8 when right, and what doubt that is wrong makes of it,
 * without the noise of drawn counts. Throws RangeError as fractionalCoverage does.
 */
export function coverageUnder(truth: Pmf, pmf: Pmf, middle = MIDDLE): number {
  let mean = 0
  for (let count = 0; count < truth.length; count++)
    if (truth[count]! > 0) mean += truth[count]! * fractionalCoverage(pmf, count, middle)
  return mean
}

/**
 * The share of an interval that lies in [low, high]; of one without width 1 where its point does, else 0.
 * Reckoned from `width`, which keeps the digits that a difference of sums near 1 would lose.
 */
export function shareInside({ from, width }: Interval, low: number, high: number): number {
  const until = from + width
  if (from >= low && until <= high) return 1
  if (until <= low || from >= high) return 0
  const inside = width - Math.max(0, low - from) - Math.max(0, until - high)
  return Math.min(1, Math.max(0, inside / width))
}
