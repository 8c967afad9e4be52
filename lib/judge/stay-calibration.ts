/**
 * Whether predicted stays come true as often as they say, when some were still going on.
 * Promise: each stay counts 1. One that ended takes up the stretch of its prediction's scale from P(K > d) to P(K >= d); one
 * that had not ended by then everything below P(K > d); both spread evenly, so the bars are flat when predictions are right.
 * Source: D-calibration, Haider, Hoehn, Davis and Greiner 2020, Journal of Machine Learning Research 21(85) (from memory),
 * with whole days spread as in Czado, Gneiting and Held 2009.
 */
import { chiSquaredAbove } from '#lib/numerics/chi-squared.ts'
import { spreadOver } from './pit.ts'
import { type PredictedStay, stayingOn, withinPrediction } from './single-stay.ts'

/**
 * `bars`: animals by tenth of P(K > d), the longest stays first; each n/10 when right. `chiSquared`: of those bars against
 * flat ones, with `probability` of as much by chance (one degree of freedom fewer than bars). Spreading makes bars more even
 * than draws would be, so the probability is a cautious one: too large where predictions are right.
 */
export type StayCalibration = {
  readonly animals: number
  readonly bars: readonly number[]
  readonly chiSquared: number
  readonly probability: number
}

/** The calibration of some stays, or null of none. Throws RangeError as withinPrediction does. */
export function stayCalibration(stays: readonly PredictedStay[], bins = 10): StayCalibration | null {
  if (stays.length === 0) return null
  const bars = new Array<number>(bins).fill(0)
  for (const one of stays) {
    const stay = withinPrediction(one)
    const from = stay.isEnded ? stayingOn(stay, stay.until) : 0
    const until = stayingOn(stay, stay.isEnded ? stay.until - 1 : stay.until)
    for (const [bar, part] of spreadOver({ from, width: until - from }, bins).entries())
      bars[bar] = bars[bar]! + part
  }
  const flat = stays.length / bins
  const chiSquared = bars.reduce((sum, bar) => sum + (bar - flat) ** 2 / flat, 0)
  return { animals: stays.length, bars, chiSquared, probability: chiSquaredAbove(chiSquared, bins - 1) }
}
