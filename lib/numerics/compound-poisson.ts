/**
 * A Poisson number of events, each bringing a random number of animals.
 * Promise: exact recursion (Panjer 1981), cut where less than 1e-15 remains. Rates are expected numbers of events.
 */
import { convolveCounts } from './convolution.ts'
import { NEGLIGIBLE } from './poisson-binomial.ts'
import type { Work } from './work.ts'

/** Largest total rate whose exp(-rate) is far from underflow; above it the sum is halved and doubled. */
const SAFE_RATE = 600

/**
 * The probabilities of 0, 1, .. animals, where events that bring j + 1 animals have rate `rates[j]` >= 0.
 * Ends at the count above which less than about 1e-15 lies; mass 1 to 1e-13. No events: [1].
 * Cost: counts x largest event multiply-adds. Throws RangeError on a negative or non-finite rate.
 */
export function compoundPoisson(rates: ArrayLike<number>, work: Work): Float64Array {
  const buffer = new Float64Array(roomForCompound(rates))
  return buffer.subarray(0, compoundPoissonInto(rates, buffer, 0, work) + 1)
}

/** Room in a buffer that is always enough for compoundPoissonInto. Throws as compoundPoisson does. */
export function roomForCompound(rates: ArrayLike<number>): number {
  let mean = 0
  let variance = 0
  for (let j = 0; j < rates.length; j++) {
    const rate = rates[j]!
    if (!(rate >= 0 && Number.isFinite(rate)))
      throw new RangeError(`rate needs a number of at least 0, got ${rate}`)
    mean += (j + 1) * rate
    variance += (j + 1) ** 2 * rate
  }
  // Twelve standard deviations and a remnant for small means: beyond lies less than 1e-15 (checked by the mass test).
  return Math.ceil(mean + 12 * Math.sqrt(variance) + 20 * rates.length) + 1
}

/**
 * Writes the same probabilities to `out` from index `at` on and returns the largest count. `out` has room for
 * roomForCompound(rates) values there; what lies beyond the largest count is left with numbers of no meaning.
 */
export function compoundPoissonInto(
  rates: ArrayLike<number>,
  out: Float64Array,
  at: number,
  work: Work,
): number {
  let largest = rates.length
  while (largest > 0 && rates[largest - 1] === 0) largest--
  let total = 0
  let mean = 0
  for (let j = 0; j < largest; j++) {
    total += rates[j]!
    mean += (j + 1) * rates[j]!
  }
  if (total > SAFE_RATE) {
    const half = compoundPoisson(
      Array.from(rates, rate => rate / 2),
      work,
    )
    return convolveCounts(half, 0, half.length - 1, half, 0, half.length - 1, out, at, work)
  }
  out[at] = Math.exp(-total)
  if (largest <= 1) return poissonInto(total, out, at, work)
  let negligible = 0
  let n = 0
  // A run of negligible counts as long as the largest event: one alone may be an impossible count.
  while (n <= mean + largest || negligible < largest) {
    n++
    const jumps = Math.min(n, largest)
    let sum = 0
    for (let j = 1; j <= jumps; j++) sum += j * rates[j - 1]! * out[at + n - j]!
    sum /= n
    out[at + n] = sum
    negligible = sum < NEGLIGIBLE ? negligible + 1 : 0
    work.multiplyAdds += jumps
  }
  return n - negligible
}

/** As compoundPoissonInto for single animals, where each probability is one product; the first is written already. */
function poissonInto(rate: number, out: Float64Array, at: number, work: Work): number {
  let n = 0
  let p = out[at]!
  while (n < rate || p >= NEGLIGIBLE) {
    n++
    p *= rate / n
    out[at + n] = p
  }
  work.multiplyAdds += n
  return Math.max(0, n - 1)
}
