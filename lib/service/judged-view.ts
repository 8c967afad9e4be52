/**
 * A backtest as its page shows it: how much of what came the doubt held, how far off it was, who was nearer.
 * Promise: pure; figures are made anew from the judged days, whatever their number; of a guess's two forms the nearer one
 * counts, and where days are too few for a doubt the range is null. Shares from 0 to 1, distances in enclosures.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { JudgedOrigin } from '#lib/domain/judged-forecast.ts'
import { withSpread } from '#lib/judge/backtest.ts'
import type { Figure } from '#lib/judge/blocks.ts'
import { NAIVES, type Naive } from '#lib/judge/naive.ts'
import { STAY_DAYS, staySummaryOf } from '#lib/judge/stay-summary.ts'
import { type HorizonSummary, summaryOf } from '#lib/judge/summary.ts'
import { rangeOf, signOf, skillAgainst, verdictOf } from '#lib/judge/verdict.ts'

/** The horizon of which a person is told first. */
const TOLD_FIRST = 28
/** Standard errors on either side: 19 chances in 20. */
const DOUBTS = 2

export type Range = { readonly low: number; readonly high: number }

/** Against one guess: the share of its distance that the forecast saves, below 0 where the guess was nearer. */
export type AgainstGuess =
  | {
      readonly guess: Naive
      readonly kind: 'judged'
      readonly nearer: number
      readonly range: Range | null
    }
  | { readonly guess: Naive; readonly kind: 'too short'; readonly needsDays: number }

export type HorizonShown = {
  readonly horizon: number
  readonly days: number
  readonly pairs: number
  readonly held: number
  readonly heldRange: Range | null
  readonly off: number
  readonly guesses: readonly AgainstGuess[]
  readonly better: readonly Naive[]
  readonly alike: readonly Naive[]
  /** Shares by tenth of the forecast's own scale, sum 1. */
  readonly pit: readonly number[]
}

export type JudgedFigures = {
  readonly horizons: readonly HorizonShown[]
  /** The horizon that is told first; undefined while nothing is judged. */
  readonly first: HorizonShown | undefined
  readonly judgedDays: number
  readonly span: { readonly from: DayNumber; readonly until: DayNumber } | null
  /** Null while no single stay is judged. */
  readonly stays: StaysShown | null
}

/**
 * Single stays, predicted on their first day: `chance` of an unevenness like theirs where predictions are right; `tenths`, the
 * shares of the emptiest and the fullest; scores by days.
 */
export type StaysShown = {
  readonly stays: number
  readonly ended: number
  readonly chance: number
  readonly tenths: { readonly least: number; readonly most: number }
  readonly scores: readonly { readonly days: number; readonly score: number }[]
}

/** No rows: the figures of the days judged so far. */
export function judgedFigures(judged: readonly JudgedOrigin[]): JudgedFigures {
  const horizons = summaryOf(judged).map(horizonShown)
  const origins = judged.map(({ origin }) => origin)
  return {
    horizons,
    first: horizons.findLast(({ horizon }) => horizon <= TOLD_FIRST) ?? horizons[0],
    judgedDays: judged.length,
    span: origins.length === 0 ? null : { from: Math.min(...origins), until: Math.max(...origins) },
    stays: staysShown(judged),
  }
}

function staysShown(judged: readonly JudgedOrigin[]): StaysShown | null {
  const summary = staySummaryOf(judged)
  if (summary === null) return null
  const { ended, calibration, brier } = summary
  const shares = calibration.bars.map(bar => bar / calibration.animals)
  return {
    stays: calibration.animals,
    ended,
    chance: calibration.probability,
    tenths: { least: Math.min(...shares), most: Math.max(...shares) },
    scores: brier.flatMap((one, i) =>
      one.kind === 'scored' ? [{ days: STAY_DAYS[i] ?? 0, score: one.score }] : [],
    ),
  }
}

function horizonShown(row: HorizonSummary): HorizonShown {
  return {
    horizon: row.horizon,
    days: row.origins,
    pairs: row.pairs,
    held: row.coverage.value,
    heldRange: rangeOf(row.coverage),
    off: row.crps.value,
    guesses: NAIVES.map(guess => againstGuess(row, guess)),
    ...verdictOf(row),
    pit: row.pit,
  }
}

function againstGuess(row: HorizonSummary, guess: Naive): AgainstGuess {
  const forms = [guess, withSpread(guess)]
  const [nearest] = forms.flatMap(name => skillAgainst(row, name) ?? []).sort(nearestFirst)
  if (nearest !== undefined) {
    return { guess, kind: 'judged', nearer: nearest.value, range: rangeAround(nearest) }
  }
  const needs = row.rivals.flatMap(one =>
    one.kind === 'too short' && forms.includes(one.name) ? [one.needsDays] : [],
  )
  return { guess, kind: 'too short', needsDays: Math.min(...needs) }
}

/** As the verdict has it: first whether a form did better beyond doubt, then how near it was. */
function nearestFirst(a: Figure, b: Figure): number {
  return signOf(a) - signOf(b) || a.value - b.value
}

function rangeAround({ value, standardError }: Figure): Range | null {
  if (standardError === null) return null
  return { low: value - DOUBTS * standardError, high: value + DOUBTS * standardError }
}
