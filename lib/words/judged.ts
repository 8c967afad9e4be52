/**
 * Whether the forecast came true, for people: how much of what came lay where most of it should, and who was nearer.
 * Promise: every share comes with its range, and a guess that would have done better is named plainly.
 * Shares from 0 to 1, horizons in days.
 */
import { capital } from './capital.ts'
import { perCent } from './chance.ts'

/** "1 day later", "28 days later". */
export function laterWords(days: number): string {
  return days === 1 ? '1 day later' : `${days} days later`
}

/** The one sentence: "28 days later, 79 % of what came lay in the middle where 80 % should (19 chances in 20: 72 to 85 %)." */
export function heldSentence(
  days: number,
  held: number,
  range: { readonly low: number; readonly high: number } | null,
): string {
  const doubt =
    range === null
      ? 'too few days to say how sure that is'
      : `19 chances in 20: ${Math.round(100 * range.low)} to ${perCent(range.high)}`
  return `${capital(laterWords(days))}, ${perCent(held)} of what came lay in the middle where 80\u00a0% should (${doubt}).`
}

/** What anybody could have guessed. */
export type Guess = 'same as today' | 'same week last year' | 'seasonal mean'

const SPOKEN: Readonly<Record<Guess, string>> = {
  'same as today': 'the same as today',
  'same week last year': 'the same as this week last year',
  'seasonal mean': 'the usual of the season',
}

/** "Guessing the same as today would have done better." Nothing where no guess would. */
export function betterSentence(guesses: readonly Guess[]): string {
  return guesses.length === 0 ? '' : `Guessing ${listed(guesses)} would have done better.`
}

/** "It can't be told apart from guessing the same as today." Nothing where it can be told from all. */
export function alikeSentence(guesses: readonly Guess[]): string {
  return guesses.length === 0 ? '' : `It can't be told apart from guessing ${listed(guesses)}.`
}

/** Where nothing can be judged yet: what is there, and what it takes. */
export function tooShortSentence(days: number, hasDays: number, needsDays: number): string {
  return `Records go back ${hasDays} days; to judge what is said of ${laterWords(days)} they must go back ${needsDays}. Until then you see the plan's forecast, marked so.`
}

function listed(guesses: readonly Guess[]): string {
  return new Intl.ListFormat('en-GB', { type: 'disjunction' }).format(guesses.map(guess => SPOKEN[guess]))
}
