/**
 * One predicted stay and what came of it, as the scores of single stays take it.
 * Promise: plain data. Days count from the day of the prediction: a stay that ends before the next midnight ends on day 0.
 */

/**
 * `staying[d]`: the predicted P(remaining days > d), d = 0 .. length-1, in [0, 1] and not rising. `until`: the day it ended,
 * or the last day it is known not to have ended (-1: seen for none).
 */
export type PredictedStay = {
  readonly staying: ArrayLike<number>
  readonly until: number
  readonly isEnded: boolean
}

/** P(remaining > d); 1 before the first day. */
export function stayingOn({ staying }: PredictedStay, d: number): number {
  return d < 0 ? 1 : staying[d]!
}

/**
 * The stay as far as its prediction reaches: who outlived the last day of it is known to have done so, and no more.
 * Throws RangeError where the prediction has no day, or `until` is no day.
 */
export function withinPrediction(stay: PredictedStay): PredictedStay {
  const days = stay.staying.length
  const least = stay.isEnded ? 0 : -1
  if (!(days > 0 && Number.isInteger(stay.until) && stay.until >= least))
    throw new RangeError(`stay needs days and an end from ${least} on, got ${days} and ${stay.until}`)
  return stay.until < days ? stay : { staying: stay.staying, until: days - 1, isEnded: false }
}
