/**
 * Lognormal lengths, counted in midnights.
 * Promise: P(K > k) for a stay that begins at a uniformly distributed moment of its first day, with relative error
 * below 1e-11 for every k and every median from 1e-290 days. A length is given by its median and 90th percentile, in days.
 */
import erfc from '@stdlib/math-base-special-erfc'

/** The 90th percentile of the standard normal distribution. */
const Z90 = 1.2815515655446004

/** Nodes and weights of 5-point Gauss-Legendre quadrature on [0, 1]. */
const NODES = [0.04691007703066802, 0.23076534494715845, 0.5, 0.7692346550528415, 0.9530899229693319]
const WEIGHTS = [
  0.11846344252809454, 0.23931433524968324, 0.28444444444444444, 0.23931433524968324, 0.11846344252809454,
]

/** Widest panel, in standard deviations and in itself, both of the logarithm: one panel on day 0 lost 5e-5. */
const PANEL_SD = 0.5
const PANEL_LOG = 0.4
/** Below this many standard deviations survival is 1 to the last bit; the integral there is its own length. */
const SURE_SD = 8.5
/** Beyond this many above the median no double can hold the survival; it bounds the panels of a steep length. */
const GONE_SD = 38

/** Of day 0 or of the median, the part before which no more than a 1e-13th of the integral lies; taken as sure. */
const FIRST_PART = 1e-13
/** The smallest double with full precision: panels below it would not grow. */
const FIRST_LEAST = 2.3e-308

/** The sigma of a lognormal with this median and 90th percentile; 0 when they coincide. Both positive, p90 >= median. */
export function lognormalSigma(median: number, p90: number): number {
  if (!(median > 0 && Number.isFinite(median)))
    throw new RangeError(`median needs a positive number, got ${median}`)
  if (!(p90 >= median && Number.isFinite(p90))) {
    throw new RangeError(`p90 needs a number of at least the median ${median}, got ${p90}`)
  }
  return logOfRatio(p90, median) / Z90
}

/** P(T > t) for a lognormal with this median and sigma > 0; relative accuracy in the far tail. t >= 0. */
export function lognormalSurvival(t: number, median: number, sigma: number): number {
  return t <= 0 ? 1 : 0.5 * erfc(logOfRatio(t, median) / (sigma * Math.SQRT2))
}

/**
 * P(K > k) for k = 0 .. days-1, K being the midnights passed: the integral of the survival over [k, k+1].
 * Method: 5-point Gauss-Legendre on narrow panels, since a difference of closed-form
 * integrals cancels in the tail (4.5e-7 lost at k = 200). `sigma` 0 is a length known exactly.
 * Non-increasing, in [0, 1]. Cost: about five error functions a day.
 */
export function dayTails(median: number, sigma: number, days: number): Float64Array {
  const tails = new Float64Array(days)
  for (let k = 0; k < days; k++) {
    tails[k] = sigma === 0 ? Math.min(1, Math.max(0, median - k)) : meanSurvival(k, median, sigma)
  }
  return tails
}

/** The integral of the survival over the day [k, k+1]. */
function meanSurvival(k: number, median: number, sigma: number): number {
  const sureUntil = median * Math.exp(-SURE_SD * sigma)
  if (sureUntil >= k + 1) return 1
  // A wide length is sure until nothing a double can hold: panels that grow from 0 would never get anywhere.
  const from = Math.max(k, sureUntil, Math.min(1, median) * FIRST_PART, FIRST_LEAST)
  const until = Math.min(k + 1, median * Math.exp(GONE_SD * sigma))
  if (until <= from) return from - k
  const panels = Math.ceil(Math.log(until / from) / Math.min(sigma * PANEL_SD, PANEL_LOG))
  const ratio = (until / from) ** (1 / panels)
  let total = from - k
  let left = from
  for (let panel = 1; panel <= panels; panel++) {
    const right = panel === panels ? until : left * ratio
    let mean = 0
    for (let i = 0; i < 5; i++) {
      mean += WEIGHTS[i]! * lognormalSurvival(left + NODES[i]! * (right - left), median, sigma)
    }
    total += mean * (right - left)
    left = right
  }
  return Math.min(1, total)
}

/** The quotient is the more exact of the two, while it is a number. */
function logOfRatio(a: number, b: number): number {
  const ratio = a / b
  return Number.isFinite(ratio) ? Math.log(ratio) : Math.log(a) - Math.log(b)
}
