/**
 * How far one season lies above or below what its days lead one to expect, as a whole: what all its days share.
 * Promise: fitted together with what the days follow, so that a season's own luck is neither taken for its usual wave nor
 * hidden in it; how much seasons scatter is learned with it. Levels of seasons not yet begun are 1 in the mean.
 * Method: normal log-levels in the regression, their variance by its evidence (Laplace's approximation: Tierney and
 * Kadane 1986, from memory) on seven values.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { choleskyOf } from '#lib/numerics/cholesky.ts'
import { type CountData, type CountFit, fitCounts, type NormalPrior } from '#lib/numerics/count-regression.ts'

/**
 * `mean`: of this season's level, known as a gamma of shape `shape` would be. `until`: first day of the next season.
 * `variance`: of the level of a season not begun.
 */
export type SeasonLevel = {
  readonly mean: number
  readonly shape: number
  readonly until: DayNumber
  readonly variance: number
}

/** Variances of a season's level, and how likely each is before any record: about a fifth up or down. Ours. */
const VARIANCES = [0.0025, 0.01, 0.02, 0.04, 0.08, 0.16, 0.32] as const
const VARIANCE_PRIOR = [0.05, 0.15, 0.2, 0.25, 0.2, 0.1, 0.05] as const

/** The variance of the logarithm of a lognormal with mean 1 and this variance. */
export function logVarianceOf(variance: number): number {
  return Math.log1p(variance)
}

/**
 * The fit at the mean variance of levels. `dataOf` makes the regression, given the priors of the levels of `seasons`
 * seasons, which are its last coefficients.
 */
export function fitSeasons(
  seasons: number,
  dataOf: (ofSeasons: readonly NormalPrior[]) => CountData & { readonly priors: readonly NormalPrior[] },
): { readonly fit: CountFit; readonly variance: number } {
  const dataAt = (variance: number) => {
    const prior = { mean: 0, sd: Math.sqrt(logVarianceOf(variance)) }
    return dataOf(Array.from({ length: seasons }, () => prior))
  }
  const logs = VARIANCES.map((variance, i) => {
    const data = dataAt(variance)
    return Math.log(VARIANCE_PRIOR[i]!) + (data.counts.length > 0 ? evidenceOf(data, fitCounts(data)) : 0)
  })
  const top = Math.max(...logs)
  const chances = logs.map(log => Math.exp(log - top))
  const total = chances.reduce((sum, chance) => sum + chance, 0)
  const variance = chances.reduce((sum, chance, i) => sum + (chance / total) * VARIANCES[i]!, 0)
  return { fit: fitCounts(dataAt(variance)), variance }
}

/** Log of the chance of the counts with coefficients summed out, but for what is the same at every variance. */
function evidenceOf(
  { priors, logTheta }: CountData & { readonly priors: readonly NormalPrior[] },
  { coefficients, covariance, logLikelihood, theta }: CountFit,
): number {
  const root = choleskyOf(covariance)
  const ofTheta = logTheta === undefined ? 0 : ((Math.log(theta) - logTheta.mean) / logTheta.sd) ** 2 / 2
  return priors.reduce(
    (sum, { mean, sd }, i) =>
      sum - ((coefficients[i]! - mean) / sd) ** 2 / 2 - Math.log(sd) + Math.log(root[i]![i]!),
    logLikelihood - ofTheta,
  )
}
