/**
 * Counts of a day that scatter more than chance alone would have them: negative binomial regression with log link.
 * Promise: without priors the estimate is the one of maximum likelihood, coefficients and theta together, as R's
 * MASS::glm.nb gives it; with priors it leans on them and without counts it is them. Method: Fisher scoring for the
 * coefficients, Newton steps for log theta, in turn until both stand (Venables and Ripley, Modern Applied Statistics with S, 7.4).
 */
import digamma from '@stdlib/math-base-special-digamma'
import gammaln from '@stdlib/math-base-special-gammaln'
import trigamma from '@stdlib/math-base-special-trigamma'
import { choleskyOf, inverseBy, type Matrix, solveBy } from './cholesky.ts'

/** A normal prior: where no count says otherwise, and how far from there is likely. `sd` Infinity: no prior. */
export type NormalPrior = { readonly mean: number; readonly sd: number }

/**
 * `rows[d]`: what is known of day d, one number a coefficient; `counts[d]`: whole numbers of at least 0; `offsets[d]`:
 * log of what is expected before any coefficient. `priors`: one a coefficient. `logTheta`: of theta, the size of the
 * negative binomial (variance = mean + mean^2 / theta).
 */
export type CountData = {
  readonly rows: readonly (readonly number[])[]
  readonly counts: readonly number[]
  readonly offsets?: readonly number[]
  readonly priors?: readonly NormalPrior[]
  readonly logTheta?: NormalPrior
}

/** `covariance`: of the coefficients, theta held. `logLikelihood`: of the counts alone, priors left out. */
export type CountFit = {
  readonly coefficients: Float64Array
  readonly covariance: Matrix
  readonly theta: number
  readonly logLikelihood: number
}

const NO_PRIOR: NormalPrior = { mean: 0, sd: Number.POSITIVE_INFINITY }
/** Counts that scatter no more than chance send theta to infinity; at this size the difference can't be told. */
const THETA_MAX = 1e6
const THETA_MIN = 1e-3
const ROUNDS_MAX = 200
const STILL = 1e-12
/** Near the top the likelihood's own rounding would stop a step that still helps. */
const ROUNDING = 1e-12
/** exp() of more overflows; no mean of a day lies there. */
const LOG_MEAN_MAX = 50

/** Fits the counts. Throws RangeError where lengths disagree, a count is none, or coefficients can't be told apart. */
export function fitCounts(data: CountData): CountFit {
  const width = checked(data)
  const priors = data.priors ?? Array.from({ length: width }, () => NO_PRIOR)
  let coefficients = Float64Array.from(priors, ({ mean }) => mean)
  let theta = Math.exp(data.logTheta?.mean ?? 0)
  for (let round = 0; round < ROUNDS_MAX; round++) {
    const next = scored(data, priors, coefficients, theta)
    const nextTheta = dispersed(data, meansOf(data, next), theta)
    const moved = Math.max(
      Math.abs(Math.log(nextTheta / theta)),
      ...next.map((one, i) => Math.abs(one - coefficients[i]!)),
    )
    coefficients = next
    theta = nextTheta
    if (moved < STILL) break
  }
  const means = meansOf(data, coefficients)
  return {
    coefficients,
    covariance: inverseBy(choleskyOf(informationOf(data, priors, means, theta))),
    theta,
    logLikelihood: logLikelihoodOf(data.counts, means, theta),
  }
}

/** Sum of log P(count) under negative binomials of these means and size. */
export function logLikelihoodOf(counts: readonly number[], means: Float64Array, theta: number): number {
  const rising = byCount(counts, y => gammaln(theta + y) - gammaln(theta))
  const factorial = byCount(counts, y => gammaln(y + 1))
  return counts.reduce((sum, y, d) => sum + logChanceOf(y, means[d]!, theta, rising(y)) - factorial(y), 0)
}

/**
 * Log of P(y) of a negative binomial of this mean (> 0) and size, but for y!, which no parameter moves; `rising` is the
 * part that no mean moves.
 */
function logChanceOf(y: number, mean: number, size: number, rising: number): number {
  return rising - (size + y) * Math.log1p(mean / size) + y * Math.log(mean / size)
}

/** What depends on a count alone, worked out once for each that occurs: of many days few counts differ. */
function byCount(counts: readonly number[], of: (y: number) => number): (y: number) => number {
  const known = new Map<number, number>()
  for (const y of counts) if (!known.has(y)) known.set(y, of(y))
  return y => known.get(y) ?? of(y)
}

function checked({ rows, counts, offsets, priors }: CountData): number {
  const width = rows[0]?.length ?? priors?.length ?? 0
  const fits = rows.length === counts.length && (offsets === undefined || offsets.length === rows.length)
  if (!fits || rows.some(row => row.length !== width) || (priors !== undefined && priors.length !== width))
    throw new RangeError('rows, counts, offsets and priors need to agree in length')
  const wrong = counts.find(y => !(Number.isInteger(y) && y >= 0))
  if (wrong !== undefined) throw new RangeError(`a count needs a whole number of at least 0, got ${wrong}`)
  return width
}

function meansOf({ rows, offsets }: CountData, coefficients: Float64Array): Float64Array {
  return Float64Array.from(rows, (row, d) => {
    let log = offsets?.[d] ?? 0
    for (let i = 0; i < row.length; i++) log += row[i]! * coefficients[i]!
    return Math.exp(Math.min(log, LOG_MEAN_MAX))
  })
}

/** Expected information of the coefficients, with their priors'. */
function informationOf(
  { rows }: CountData,
  priors: readonly NormalPrior[],
  means: Float64Array,
  theta: number,
): Float64Array[] {
  const sum = priors.map(({ sd }, i) => {
    const row = new Float64Array(priors.length)
    row[i] = 1 / sd ** 2
    return row
  })
  for (const [d, row] of rows.entries()) {
    const weight = means[d]! / (1 + means[d]! / theta)
    for (let i = 0; i < row.length; i++) {
      // Of the days of a week and the seasons one is 1 and the others 0.
      if (row[i] === 0) continue
      for (let j = 0; j <= i; j++) sum[i]![j] = sum[i]![j]! + weight * row[i]! * row[j]!
    }
  }
  return sum
}

/** One step of Fisher scoring, halved until the penalised likelihood does not fall. */
function scored(
  data: CountData,
  priors: readonly NormalPrior[],
  from: Float64Array,
  theta: number,
): Float64Array<ArrayBuffer> {
  const { rows, counts } = data
  const means = meansOf(data, from)
  const slope = Float64Array.from(priors, ({ mean, sd }, i) => (mean - from[i]!) / sd ** 2)
  for (const [d, row] of rows.entries()) {
    const pull = (counts[d]! - means[d]!) / (1 + means[d]! / theta)
    for (let i = 0; i < row.length; i++) slope[i] = slope[i]! + pull * row[i]!
  }
  const step = solveBy(choleskyOf(informationOf(data, priors, means, theta)), slope)
  const height = (at: Float64Array) =>
    logLikelihoodOf(counts, meansOf(data, at), theta) -
    priors.reduce((sum, { mean, sd }, i) => sum + ((at[i]! - mean) / sd) ** 2 / 2, 0)
  const before = height(from)
  for (let share = 1; share > STILL; share /= 2) {
    const next = Float64Array.from(from, (one, i) => one + share * step[i]!)
    if (height(next) >= before - ROUNDING * Math.abs(before)) return next
  }
  return Float64Array.from(from)
}

/** Theta at which the likelihood, with its prior, is highest for these means: Newton on its logarithm. */
function dispersed({ counts, logTheta = NO_PRIOR }: CountData, means: Float64Array, from: number): number {
  let log = Math.log(from)
  for (let round = 0; round < ROUNDS_MAX; round++) {
    const theta = Math.exp(log)
    let slope = (logTheta.mean - log) / logTheta.sd ** 2
    let curve = -1 / logTheta.sd ** 2
    const rise = byCount(counts, y => digamma(theta + y) - digamma(theta))
    const bend = byCount(counts, y => trigamma(theta + y) - trigamma(theta))
    for (const [d, y] of counts.entries()) {
      const mean = means[d]!
      const first = rise(y) - Math.log1p(mean / theta) + 1 - (theta + y) / (theta + mean)
      const second = bend(y) + 1 / theta - 2 / (theta + mean) + (theta + y) / (theta + mean) ** 2
      slope += theta * first
      curve += theta * first + theta ** 2 * second
    }
    // Where the likelihood bends upwards Newton would walk away from the top: go up a step instead.
    const step = curve < 0 ? -slope / curve : Math.sign(slope)
    log = Math.min(Math.log(THETA_MAX), Math.max(Math.log(THETA_MIN), log + Math.max(-1, Math.min(1, step))))
    if (Math.abs(step) < STILL) break
  }
  return Math.exp(log)
}
