/**
 * The chance that a chi-squared number is larger than one that was seen.
 * Promise: relative accuracy in the tail, for whole degrees of freedom: a finite sum after erfc or exp, no subtraction.
 * Source: Abramowitz and Stegun 26.4.4 and 26.4.5 (from memory). The library at hand has erfc, and no incomplete gamma.
 */
import erfc from '@stdlib/math-base-special-erfc'

/** The largest whose sum stays exact enough; bars of a histogram are far fewer. */
const DEGREES_MAX = 200

/**
 * P(X > x) for X chi-squared with `degrees` degrees of freedom, 1 to 200. x >= 0. Throws RangeError for anything else.
 * Cost: half as many terms as degrees.
 */
export function chiSquaredAbove(x: number, degrees: number): number {
  if (!(Number.isInteger(degrees) && degrees >= 1 && degrees <= DEGREES_MAX))
    throw new RangeError(`degrees needs a whole number from 1 to ${DEGREES_MAX}, got ${degrees}`)
  if (!(x >= 0)) throw new RangeError(`x needs a number of at least 0, got ${x}`)
  if (x === 0) return 1
  const half = x / 2
  const isOdd = degrees % 2 === 1
  // Terms half^s e^-half / gamma(s + 1), s in whole steps up to degrees / 2 - 1.
  let sum = isOdd ? erfc(Math.sqrt(half)) : Math.exp(-half)
  let logTerm = isOdd ? 0.5 * Math.log(half) - half - Math.log(Math.sqrt(Math.PI) / 2) : Math.log(half) - half
  for (let s = isOdd ? 0.5 : 1; s <= degrees / 2 - 1; s++) {
    sum += Math.exp(logTerm)
    logTerm += Math.log(half) - Math.log(s + 1)
  }
  return Math.min(1, sum)
}
