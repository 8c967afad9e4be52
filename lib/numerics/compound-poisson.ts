/**
 * A Poisson number of events, each bringing a random number of animals.
 * Promise: exact recursion (Panjer 1981), cut where less than 1e-15 remains. Rates are expected numbers of events.
 */
import { NEGLIGIBLE } from './poisson-binomial.ts'
import type { Work } from './work.ts'

/** Largest total rate whose exp(-rate) is far from underflow; above it the sum is halved and doubled. */
const SAFE_RATE = 600

/**
 * The probabilities of 0, 1, .. animals, where events that bring j + 1 animals have rate `rates[j]` >= 0.
 * Ends at the count above which less than about 1e-15 lies; mass 1 to 1e-14. No events: [1].
 * Cost: counts x largest event multiply-adds. Throws RangeError on a negative or non-finite rate.
 */
export function compoundPoisson(rates: ArrayLike<number>, work: Work): Float64Array {
  let total = 0
  let mean = 0
  let variance = 0
  for (let j = 0; j < rates.length; j++) {
    const rate = rates[j]!
    if (!(rate >= 0 && Number.isFinite(rate)))
      throw new RangeError(`rate needs a number of at least 0, got ${rate}`)
    total += rate
    mean += (j + 1) * rate
    variance += (j + 1) ** 2 * rate
  }
  if (total > SAFE_RATE)
    return doubled(
      compoundPoisson(
        Array.from(rates, rate => rate / 2),
        work,
      ),
      work,
    )
  // Twelve standard deviations and a remnant for small means: beyond lies less than 1e-15 (checked by the mass test).
  const limit = Math.ceil(mean + 12 * Math.sqrt(variance) + 20 * rates.length)
  const pmf = new Float64Array(limit + 1)
  pmf[0] = Math.exp(-total)
  for (let n = 1; n <= limit; n++) {
    const jumps = Math.min(n, rates.length)
    let sum = 0
    for (let j = 1; j <= jumps; j++) sum += j * rates[j - 1]! * pmf[n - j]!
    pmf[n] = sum / n
    work.multiplyAdds += jumps
    if (n > mean + rates.length && belowCut(pmf, n, rates.length)) return pmf.slice(0, n - rates.length + 1)
  }
  return pmf
}

/** Whether the last `width` probabilities are all negligible: one alone may be an impossible count. */
function belowCut(pmf: Float64Array, n: number, width: number): boolean {
  for (let i = 0; i < width; i++) if (pmf[n - i]! >= NEGLIGIBLE) return false
  return true
}

/** The distribution of the sum of two independent copies. */
function doubled(half: Float64Array, work: Work): Float64Array {
  const whole = new Float64Array(2 * half.length - 1)
  for (let i = 0; i < half.length; i++) {
    for (let j = 0; j < half.length; j++) whole[i + j] = whole[i + j]! + half[i]! * half[j]!
  }
  work.multiplyAdds += half.length ** 2
  return whole
}
