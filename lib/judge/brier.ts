/**
 * How near the predicted chances "still here on that day" were to what came, when some went from sight before it.
 * Promise: without censoring the mean square; with it the stays that are known stand for those like them that are not, by the
 * inverse of the chance to be still in sight, so the mean is that of all where going from sight does not depend on the stay.
 * Source: Graf, Schmoor, Sauerbrei and Schumacher 1999, Statistics in Medicine 18:2529-2545 (from memory).
 */
import { type PredictedStay, stayingOn, withinPrediction } from './single-stay.ts'

/** The score of a day in [0, 1] or somewhat above by weights, of so many stays known; or nobody was followed as far. */
export type Brier =
  | { readonly kind: 'scored'; readonly score: number; readonly known: number }
  | { readonly kind: 'nobody followed so far' }

/**
 * The mean of (P(K > day) - [K > day])^2 over stays, each known one weighed by 1 / G, G being the Kaplan-Meier chance to be in
 * sight on the day that settles it. On one day ends are seen before anybody goes from sight. `day` at least 0, within all
 * predictions. Throws RangeError for another day or no stays.
 */
export function brierOf(stays: readonly PredictedStay[], day: number): Brier {
  const reach = Math.min(...stays.map(({ staying }) => staying.length))
  if (!(Number.isInteger(day) && day >= 0 && day < reach))
    throw new RangeError(`day needs a whole number from 0 to below ${reach}, got ${day}`)
  const all = stays.map(withinPrediction)
  const inSight = chanceInSight(all, day)
  let sum = 0
  let known = 0
  for (const stay of all) {
    const hasEnded = stay.isEnded && stay.until <= day
    if (!hasEnded && stay.until < day) continue
    known++
    const said = stayingOn(stay, day)
    sum += hasEnded ? said ** 2 / inSight[stay.until]! : (1 - said) ** 2 / inSight[day]!
  }
  if (inSight[day] === 0) return { kind: 'nobody followed so far' }
  return { kind: 'scored', score: sum / stays.length, known }
}

/** G(d) for d = 0 .. day: the chance to be in sight on day d, of stays that last so long. */
function chanceInSight(stays: readonly PredictedStay[], day: number): Float64Array {
  const ended = new Float64Array(day + 1)
  const lost = new Float64Array(day + 2)
  for (const { until, isEnded } of stays) {
    if (isEnded && until <= day) ended[until] = ended[until]! + 1
    if (!isEnded && until < day) lost[until + 1] = lost[until + 1]! + 1
  }
  const chances = new Float64Array(day + 1)
  let present = stays.length
  let chance = 1
  for (let d = 0; d <= day; d++) {
    // Lost before day d: after the ends of the day before.
    if (lost[d]! > 0) chance *= 1 - lost[d]! / present
    present -= lost[d]!
    chances[d] = chance
    present -= ended[d]!
  }
  return chances
}
