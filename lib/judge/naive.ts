/**
 * What anybody could say without a forecast: the same as today, the same week last year, the usual of the season.
 * Promise: uses the days of the history and nothing else; each is told as a sure number and with a spread learned from
 * how far it was out on every earlier day of the same history, at the same distance. Where the history is too short, the
 * days it lacks. What counts as enough is ours, no source.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { type Pmf, sureOf } from './counts.ts'

/** Counts of consecutive days from `from` on; the last is that of the day on which the forecast is made. */
export type DayCounts = { readonly from: DayNumber; readonly counts: ArrayLike<number> }

/** A forecast of one count, or how many days of history it needs where it has only so many. */
export type Told =
  | { readonly kind: 'told'; readonly pmf: Pmf }
  | { readonly kind: 'too short'; readonly hasDays: number; readonly needsDays: number }

/** The guesses, by the name a person reads. */
export const NAIVES = ['same as today', 'same week last year', 'seasonal mean'] as const
export type Naive = (typeof NAIVES)[number]

/** 52 weeks: the same weekday. */
const YEAR_DAYS = 364
/** Half widths of a week and of a season. */
const WEEK_HALF = 3
const SEASON_HALF = 14
/** Beyond it last year's season would not be over. */
const HORIZON_MAX = 300
/** A spread needs a month of differences, and four that do not overlap. */
const DIFFERENCES_MIN = 28
const APART_MIN = 4

/**
 * The guess about the day `horizon` days (1 to 300) after the last of the history, as the sure count nearest to it.
 * Throws RangeError for another horizon.
 */
export function naivePoint(naive: Naive, history: DayCounts, horizon: number): Told {
  const hasDays = history.counts.length
  const needsDays = firstOrigin(naive, horizon) + 1
  if (hasDays < needsDays) return { kind: 'too short', hasDays, needsDays }
  const said = guesserOf(naive, history.counts, horizon)(hasDays - 1)
  return { kind: 'told', pmf: sureOf(Math.round(said)) }
}

/**
 * The guess plus each of the differences that it had on the history's own days, all alike likely; what would fall below
 * 0 counts as 0. Cost: the history's length. Throws as naivePoint does.
 */
export function naiveSpread(naive: Naive, history: DayCounts, horizon: number): Told {
  const { counts } = history
  const hasDays = counts.length
  const first = firstOrigin(naive, horizon)
  // Differences are known for origins `first` to the last less the horizon.
  const needsDays = first + horizon + Math.max(DIFFERENCES_MIN, APART_MIN * horizon)
  if (hasDays < needsDays) return { kind: 'too short', hasDays, needsDays }
  const guess = guesserOf(naive, counts, horizon)
  const said = guess(hasDays - 1)
  const values: number[] = []
  for (let origin = first; origin + horizon < hasDays; origin++)
    values.push(said + counts[origin + horizon]! - guess(origin))
  return { kind: 'told', pmf: empirical(values) }
}

/** Index of the first day of a history on which a guess can be made. */
function firstOrigin(naive: Naive, horizon: number): number {
  if (!(Number.isInteger(horizon) && horizon >= 1 && horizon <= HORIZON_MAX))
    throw new RangeError(`horizon needs whole days from 1 to ${HORIZON_MAX}, got ${horizon}`)
  if (naive === 'same as today') return 0
  if (naive === 'same week last year') return YEAR_DAYS + WEEK_HALF - horizon
  // A mean of seasons needs two.
  return 2 * YEAR_DAYS + SEASON_HALF - horizon
}

/** What the guess says on day `origin` (an index of counts) of the day `horizon` later; unrounded, from known days only. */
function guesserOf(naive: Naive, counts: ArrayLike<number>, horizon: number): (origin: number) => number {
  if (naive === 'same as today') return origin => counts[origin]!
  const sums = new Float64Array(counts.length + 1)
  for (let i = 0; i < counts.length; i++) sums[i + 1] = sums[i]! + counts[i]!
  const half = naive === 'same week last year' ? WEEK_HALF : SEASON_HALF
  const yearsMax = naive === 'same week last year' ? 1 : Number.POSITIVE_INFINITY
  return origin => {
    let sum = 0
    let years = 1
    for (; years <= yearsMax; years++) {
      const middle = origin + horizon - years * YEAR_DAYS
      if (middle < half) break
      sum += sums[middle + half + 1]! - sums[middle - half]!
    }
    return sum / ((years - 1) * (2 * half + 1))
  }
}

/** The distribution that gives each of these values, to the nearest count, the same chance. */
function empirical(values: readonly number[]): Float64Array {
  const counts = values.map(value => Math.max(0, Math.round(value)))
  const pmf = new Float64Array(Math.max(...counts) + 1)
  for (const count of counts) pmf[count] = pmf[count]! + 1
  return pmf.map(n => n / values.length)
}
