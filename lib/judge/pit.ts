/**
 * Where observed values fell on the scale of their forecasts, as parts of a histogram that is flat when those were right.
 * Promise: each observation counts 1, spread evenly over the stretch of the scale it takes up, so nothing is drawn by
 * chance. Source: Czado, Gneiting and Held 2009, Biometrics 65:1254-1261 (from memory): the non-randomised histogram of
 * the probability integral transform.
 */

import { type Interval, intervalOf, type Pmf } from './counts.ts'
import { shareInside } from './coverage.ts'

/** Bars of the histogram. */
export const PIT_BINS = 10

/** What one count adds to each of `bins` equal bars: at least 0, sum 1. Throws RangeError as intervalOf does. */
export function pitOf(pmf: Pmf, count: number, bins = PIT_BINS): number[] {
  return spreadOver(intervalOf(pmf, count), bins)
}

/**
 * An interval of [0, 1] spread evenly over `bins` equal bars, sum 1; one without width lies in the bar that holds its
 * point (a point between two bars in the upper one, 1 in the last).
 */
export function spreadOver(interval: Interval, bins: number): number[] {
  const { from, width } = interval
  // Narrower than a rounding of its place: a point.
  if (from + width === from) {
    const bar = Math.min(bins - 1, Math.floor(from * bins))
    return Array.from({ length: bins }, (_, i) => Number(i === bar))
  }
  // What rounding puts above 1 belongs to the last bar.
  const edge = (i: number) => (i === bins ? Number.POSITIVE_INFINITY : i / bins)
  return Array.from({ length: bins }, (_, i) => shareInside(interval, edge(i), edge(i + 1)))
}
