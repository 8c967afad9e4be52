/**
 * How many boxes of a species group come to the doors, learned from those that came and those that were sent elsewhere.
 * Promise: without records it is what the centres entered; with few it leans on that. An arrival counts whether or not it
 * found a place, so a season of refusals lowers nothing. Arrivals and animals are counted apart.
 */
import { meanEventSize } from '#lib/domain/arrivals.ts'
import { type DayNumber, dateOfDay, weekdayOf } from '#lib/domain/day.ts'
import type { LearnedRates } from '#lib/domain/learned-arrivals.ts'
import { shareOfDay } from '#lib/domain/season.ts'
import { firstDayOfNextSeason, type Season } from '#lib/domain/stage-cell.ts'
import { choleskyOf, type Matrix } from '#lib/numerics/cholesky.ts'
import type { CountFit, NormalPrior } from '#lib/numerics/count-regression.ts'
import { learnMix, mixWeight } from './arrival-mix.ts'
import { learnShares, sharesWeight } from './arrival-shares.ts'
import { learnSizes } from './arrival-sizes.ts'
import { fitSeasons, logVarianceOf, type SeasonLevel } from './season-level.ts'

/** What a centre entered of a group: animals a year, over twelve months, and how many come at once when young come. */
export type UsualYear = {
  readonly centreId: number
  readonly animalsPerYear: number
  readonly monthShares: readonly number[]
  readonly eventSizes: readonly number[]
}

/**
 * One arrival, or one that was asked for and refused (`centreId` null). `animals` is at least 1. `planIds`: of its first
 * animal; null where it has none. `young`: how many of them are young, null or absent where that is not known.
 */
export type RecordedArrival = {
  readonly day: DayNumber
  readonly centreId: number | null
  readonly animals: number
  readonly planIds: readonly string[] | null
  readonly young?: number | null
}

/** A group's arrivals: `records` of the days `from` up to, not with, `asOf`. `isYoung`: whether young come on a day. */
export type GroupArrivals = {
  readonly group: string
  readonly usual: readonly UsualYear[]
  readonly records: readonly RecordedArrival[]
  readonly from: DayNumber
  readonly asOf: DayNumber
  readonly isYoung: (day: DayNumber) => boolean
}

/**
 * What was learned of a group. `events`: how many arrivals were counted, `refused` those without a centre. `level`: how
 * many times what the centres entered, over the year to come, with the range that holds it with 80 % chance; `weekend`: a day of the
 * weekend over one of the week. `eventsPerDay[d]`: expected arrivals in the whole network on day asOf + d, this
 * season's level in. `theta`: size of the negative binomial by which a day scatters. `spread[d]`: by how much the log of
 * day d's expectation moves with each of as many independent standard normals, the same for all days. `sharesWeight`: what
 * the shares of a season rest on, in arrivals; `mixWeight` those of its plans.
 */
export type LearnedArrivals = Omit<LearnedRates, 'run'> & {
  readonly events: number
  readonly refused: number
  readonly level: { readonly mean: number; readonly low: number; readonly high: number }
  readonly weekend: number
  readonly theta: number
  readonly season: SeasonLevel
  readonly spread: readonly Float64Array[]
  readonly sharesWeight: Readonly<Record<Season, number>>
  readonly mixWeight: Readonly<Record<Season, number>>
}

/** Days of a year, on average. */
const YEAR = 365.25
/** Somebody may come in a month in which nobody is expected, and of a group that nobody entered. Ours. */
const LEAST = { shareOfADay: 0.02, arrivalsAYear: 0.1 }
/** How far from what the centres entered is likely: logs of level, trend a year, season's waves, a day of the week. Ours. */
const SD = { level: 0.5, trend: 0.1, wave: 0.3, weekday: 0.15 }
const DAYS_A_WEEK = 7
const FRIDAY = 5
/** Before any record a day scatters about so; shape of the gamma. Ours. */
const LOG_THETA: NormalPrior = { mean: Math.log(5), sd: 1 }
const Z_80 = 1.2815515655446004

const PRIORS: readonly NormalPrior[] = [SD.level, SD.trend, SD.wave, SD.wave, SD.wave, SD.wave]
  .concat(Array.from({ length: DAYS_A_WEEK }, () => SD.weekday))
  .map(sd => ({ mean: 0, sd }))
const WEEKDAYS_FROM = PRIORS.length - DAYS_A_WEEK

/**
 * Learns one group's arrivals, and what to expect on `days` days from asOf on.
 * Throws RangeError where a record lies outside the days given.
 */
export function learnArrivals(group: GroupArrivals, days: number): LearnedArrivals {
  const { usual, records, from, asOf, isYoung } = group
  const counts = countsOf(records, from, asOf)
  const usualOn = (day: DayNumber) => usualEvents(usual, day, isYoung(day))
  const until = firstDayOfNextSeason(asOf)
  const seasons = seasonEnds(from, until)
  const rowOn = (day: DayNumber) => {
    const ends = firstDayOfNextSeason(day)
    return [...rowOf(day, asOf), ...seasons.map(end => Number(end === ends))]
  }
  const past = counts.map((_, d) => ({ row: rowOn(from + d), log: Math.log(usualOn(from + d)) }))
  const { fit, variance } = fitSeasons(seasons.length, ofSeasons => {
    const priors = [...PRIORS, ...ofSeasons]
    const offsets = past.map(({ row, log }) => log - halfPriorVariance(row, priors))
    return { rows: past.map(({ row }) => row), counts, offsets, priors, logTheta: LOG_THETA }
  })
  const priors = [...PRIORS, ...seasons.map(() => ({ mean: 0, sd: Math.sqrt(logVarianceOf(variance)) }))]
  const root = choleskyOf(fit.covariance)
  const spreadOn = (row: readonly number[]) => spreadOf(root, row)
  const meanOf = (day: DayNumber, row: readonly number[]) =>
    usualOn(day) * Math.exp(logOf(fit, row) + halfSquare(spreadOn(row)) - halfPriorVariance(row, priors))
  const seasonless = (day: DayNumber) => [...rowOf(day, asOf), ...seasons.map(() => 0)]
  const ofThis = [...PRIORS.map(() => 0), ...seasons.map(end => Number(end === until))]
  const ahead = Array.from({ length: days }, (_, d) => rowOn(asOf + d))
  return {
    group: group.group,
    from: asOf,
    events: records.length,
    refused: records.filter(({ centreId }) => centreId === null).length,
    level: levelOf(fit, asOf, usualOn, day => meanOf(day, seasonless(day))),
    weekend: weekendOf(fit),
    theta: fit.theta,
    season: {
      mean: meanOf(asOf, rowOn(asOf)) / meanOf(asOf, seasonless(asOf)),
      // Of the gamma that scatters as far as the lognormal.
      shape: 1 / Math.expm1(2 * halfSquare(spreadOn(ofThis))),
      until,
      variance,
    },
    eventsPerDay: Float64Array.from(ahead, (row, d) => meanOf(asOf + d, row)),
    spread: ahead.map(spreadOn),
    sizes: learnSizes(records, usual, isYoung),
    shares: learnShares(records, usual),
    sharesWeight: sharesWeight(records),
    mix: learnMix(records),
    mixWeight: mixWeight(records),
  }
}

/** The first days after each season from that of `from` on, up to the one that ends at `until`; each names its season. */
function seasonEnds(from: DayNumber, until: DayNumber): DayNumber[] {
  const ends: DayNumber[] = []
  for (let end = firstDayOfNextSeason(from); end <= until; end = firstDayOfNextSeason(end)) ends.push(end)
  return ends
}

/** Arrivals a day that the centres entered together, never quite none. */
function usualEvents(usual: readonly UsualYear[], day: DayNumber, isYoung: boolean): number {
  const events = usual.reduce((sum, { animalsPerYear, monthShares, eventSizes }) => {
    const share = Math.max(shareOfDay(monthShares, day), LEAST.shareOfADay / YEAR)
    return sum + (animalsPerYear * share) / (isYoung ? meanEventSize(eventSizes) : 1)
  }, 0)
  return Math.max(events, LEAST.arrivalsAYear / YEAR)
}

function countsOf(records: readonly RecordedArrival[], from: DayNumber, asOf: DayNumber): number[] {
  const counts = Array.from({ length: Math.max(0, asOf - from) }, () => 0)
  for (const { day } of records) {
    if (!(day >= from && day < asOf))
      throw new RangeError(`a record needs a day from ${from} to ${asOf - 1}, got ${day}`)
    counts[day - from] = counts[day - from]! + 1
  }
  return counts
}

/** Level, years before or after today, two waves a year, the day of the week. */
function rowOf(day: DayNumber, asOf: DayNumber): number[] {
  const yearDay = day - Date.parse(`${dateOfDay(day).slice(0, 4)}-01-01`) / 86_400_000
  const w = (2 * Math.PI * yearDay) / YEAR
  const weekday = weekdayOf(day)
  const weekdays = Array.from({ length: DAYS_A_WEEK }, (_, at) => Number(weekday === at + 1))
  return [
    1,
    Math.min(0, day - asOf) / YEAR,
    Math.sin(w),
    Math.cos(w),
    Math.sin(2 * w),
    Math.cos(2 * w),
    ...weekdays,
  ]
}

function logOf({ coefficients }: CountFit, row: readonly number[]): number {
  return row.reduce((sum, x, i) => sum + x * coefficients[i]!, 0)
}

/**
 * The mean of a lognormal lies half its variance above: added for what is left open about a day, and taken off for what the
 * prior leaves open, so that before any record the mean factor is 1.
 */
function halfPriorVariance(row: readonly number[], priors: readonly NormalPrior[]): number {
  return row.reduce((sum, x, i) => sum + (x * priors[i]!.sd) ** 2, 0) / 2
}

/** The row times the lower factor of the covariance. */
function spreadOf(root: Matrix, row: readonly number[]): Float64Array {
  return Float64Array.from(row, (_, j) =>
    row.reduce((sum, x, i) => (i < j ? sum : sum + x * root[i]![j]!), 0),
  )
}

function halfSquare(spread: Float64Array): number {
  return spread.reduce((sum, one) => sum + one * one, 0) / 2
}

/** Over the year to come; its range is that of what all its days share. */
function levelOf(
  fit: CountFit,
  asOf: DayNumber,
  usualOn: (day: DayNumber) => number,
  meanOn: (day: DayNumber) => number,
): LearnedArrivals['level'] {
  const year = Array.from({ length: Math.floor(YEAR) }, (_, d) => asOf + d)
  const sum = (on: (day: DayNumber) => number) => year.reduce((total, day) => total + on(day), 0)
  const mean = sum(meanOn) / sum(usualOn)
  const row = Array.from(fit.coefficients, (_, i) =>
    i === 0 ? 1 : i >= WEEKDAYS_FROM && i < PRIORS.length ? 1 / DAYS_A_WEEK : 0,
  )
  const half = halfSquare(spreadOf(choleskyOf(fit.covariance), row))
  const reach = Z_80 * Math.sqrt(2 * half)
  return { mean, low: mean * Math.exp(-half - reach), high: mean * Math.exp(-half + reach) }
}

function weekendOf({ coefficients }: CountFit): number {
  const days = coefficients.slice(WEEKDAYS_FROM, PRIORS.length)
  const mean = (part: Float64Array) => part.reduce((sum, one) => sum + one, 0) / part.length
  return Math.exp(mean(days.slice(FRIDAY)) - mean(days.slice(0, FRIDAY)))
}
