/**
 * What a person is told of one horizon: how much the middle held, and whether some guess would have done better.
 * Promise: a guess is called better, or worse, only where the difference is more than twice its standard error; else
 * the two are not told apart. Where nothing can be judged it says what history is missing.
 */
import { withSpread } from './backtest.ts'
import { BLOCKS_MIN, blockDays, type Figure } from './blocks.ts'
import { NAIVES, type Naive } from './naive.ts'
import type { HorizonSummary, RivalSummary } from './summary.ts'

/** Standard errors on either side of a figure that is spoken of: 19 chances in 20. */
const DOUBTS = 2

/** Guesses that did better, and those that could not be told apart; the rest did worse or could not speak. */
export type Verdict = { readonly better: readonly Naive[]; readonly alike: readonly Naive[] }

/** How a horizon stands against what anybody could guess; of a guess as a sure number and with its spread the better counts. */
export function verdictOf(row: HorizonSummary): Verdict {
  const signs = NAIVES.map(naive => {
    const forms = [naive, withSpread(naive)].map(name => skillAgainst(row, name))
    return { naive, sign: Math.min(...forms.map(skill => (skill === null ? 1 : signOf(skill)))) }
  })
  const guesses = (wanted: number) => signs.filter(({ sign }) => sign === wanted).map(({ naive }) => naive)
  return { better: guesses(-1), alike: guesses(0) }
}

/** 1 above 0 and -1 below, where that is beyond doubt; else 0. */
export function signOf({ value, standardError }: Figure): -1 | 0 | 1 {
  if (standardError === null || Math.abs(value) <= DOUBTS * standardError) return 0
  return value < 0 ? -1 : 1
}

/** The range that holds a share with 19 chances in 20, within [0, 1]; null where its doubt is not known. */
export function rangeOf({
  value,
  standardError,
}: Figure): { readonly low: number; readonly high: number } | null {
  if (standardError === null) return null
  return {
    low: Math.max(0, value - DOUBTS * standardError),
    high: Math.min(1, value + DOUBTS * standardError),
  }
}

/**
 * Days of history that judging a horizon takes: as many blocks as a standard error needs, on top of `learnDays` on which
 * the first forecast stands and the horizon itself.
 */
export function needsDays(horizon: number, learnDays: number): number {
  return learnDays + horizon + BLOCKS_MIN * blockDays(horizon)
}

/** A rival's skill, or null where it could not speak. */
export function skillAgainst({ rivals }: HorizonSummary, name: string): Figure | null {
  const rival = rivals.find(
    (one): one is RivalSummary & { kind: 'judged' } => one.name === name && one.kind === 'judged',
  )
  return rival?.skill ?? null
}
