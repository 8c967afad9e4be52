/**
 * How far one season lies above or below what its days lead one to expect, as a whole: what all its days share.
 * Promise: the level of the season that runs, from its days so far, and how much levels scatter from season to season.
 * Method: gamma level, negative binomial count of a season (Poisson mixed over its level); days that scatter more than
 * chance count for as many fewer as they do. Levels of other seasons than this one are 1 in the mean.
 */

import type { DayNumber } from '#lib/domain/day.ts'
import { firstDayOfNextSeason, seasonOf } from '#lib/domain/stage-cell.ts'
import { logChanceOf } from '#lib/numerics/count-regression.ts'

/** A day so far: what came, and what was expected. */
export type CountedDay = { readonly day: DayNumber; readonly count: number; readonly mean: number }

/**
 * `mean`: of this season's level, a gamma of shape `shape`. `until`: first day of the next season. `variance`: of the
 * level of a season of which nothing is known yet.
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

/** The level of the season that `asOf` lies in. `days` are those before it; `theta`: by which a day scatters. */
export function learnSeasonLevel(days: readonly CountedDay[], asOf: DayNumber, theta: number): SeasonLevel {
  const seasons = new Map<string, { count: number; mean: number; square: number }>()
  for (const { day, count, mean } of days) {
    const key = seasonKey(day)
    const sum = seasons.get(key) ?? { count: 0, mean: 0, square: 0 }
    seasons.set(key, {
      count: sum.count + count,
      mean: sum.mean + mean,
      square: sum.square + mean ** 2,
    })
  }
  // Of a season as a whole: variance over mean if its level were 1.
  const told = [...seasons].map(([key, { count, mean, square }]) => {
    const scatter = mean > 0 ? 1 + square / (theta * mean) : 1
    return { key, count: count / scatter, mean: mean / scatter }
  })
  const weights = VARIANCES.map((variance, i) =>
    told.reduce(
      (sum, { count, mean }) => sum + (mean > 0 ? logChanceOf(count, mean, 1 / variance) : 0),
      Math.log(VARIANCE_PRIOR[i]!),
    ),
  )
  const top = Math.max(...weights)
  const chances = weights.map(weight => Math.exp(weight - top))
  const total = chances.reduce((sum, chance) => sum + chance, 0)
  const variance = chances.reduce((sum, chance, i) => sum + (chance / total) * VARIANCES[i]!, 0)
  const here = told.find(({ key }) => key === seasonKey(asOf)) ?? { count: 0, mean: 0 }
  const shape = 1 / variance + here.count
  return { mean: shape / (1 / variance + here.mean), shape, until: firstDayOfNextSeason(asOf), variance }
}

/** Seasons end on distinct days, so their end names them. */
function seasonKey(day: DayNumber): string {
  return `${seasonOf(day)} ${firstDayOfNextSeason(day)}`
}
