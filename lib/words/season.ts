/** Seasons that bind a species, in words: when it may go, and what it weighs before winter. Marks are said in full. */
import type { Overwinter, SpeciesSeason } from '#lib/domain/season-gate.ts'
import type { Unlikely } from '#lib/domain/weight.ts'
import { gramsWords } from './casualty-happened.ts'
import { monthDayWords } from './casualty-plan.ts'
import { markWords } from './mark.ts'

/** "Released between 1 April and 15 September: out by mid September (common practice, no source)". */
export function seasonLine({ kind, opens, closes, grams, note, mark }: SpeciesSeason): string {
  const head =
    kind === 'migration'
      ? `Released between ${monthDayWords(opens)} and ${monthDayWords(closes)}`
      : `Overwintered if under ${gramsWords(grams ?? 0)} from ${monthDayWords(opens)} to ${monthDayWords(closes)}`
  return `${head}${note === '' ? '' : `: ${note}`} (${markWords(mark)})`
}

export const OVERWINTER = {
  because: 'Too light for winter: overwintered',
  add: 'Plan the overwintering',
  weigh: 'Is it heavy enough for winter? It has not been weighed',
  next: 'The stage that keeps it until spring is added to its plan; the old plan stays readable.',
} as const

/** "420 g: under the 600 g that it needs before winter (from memory)". */
export function overwinterWords(found: Overwinter): string {
  const wanted = `${gramsWords(found.wanted)} (${markWords(found.mark)})`
  return found.kind === 'weigh'
    ? `${OVERWINTER.weigh}: it needs ${wanted}`
    : `${gramsWords(found.grams)}: before winter it needs ${wanted}`
}

export const OVERWINTER_RULES = {
  'no-overwintering-for-its-kind': {
    say: 'The reference has no overwintering for this kind of animal',
    next: 'Revise its plan instead, or add a plan in setup.',
  },
  'overwintering-planned-already': {
    say: 'Its overwintering was planned a moment ago',
    next: 'Look at the plan as it is now.',
  },
} as const

export const WEIGHTS = {
  head: 'Weights',
  day: 'Day',
  grams: 'Weight',
  asTable: 'As a table',
  sure: 'It is right',
  takeBack: 'Take it back',
  kept: 'It is recorded either way. A slip of the scales or of a digit is taken back and weighed again.',
  usual: 'usual',
} as const

/** "95 g is 61 % less than 2 days before (240 g). Is it right?". */
export function unlikelyWords(grams: number, found: Unlikely): string {
  const shown = gramsWords(grams)
  if (found.rule === 'too heavy')
    return `${shown} is far above the usual ${gramsWords(found.usual)}. Is it right?`
  if (found.rule === 'too light')
    return `${shown} is far under the usual ${gramsWords(found.usual)}. Is it right?`
  const size = `${Math.round(Math.abs(found.share) * 100)}\u00a0% ${found.share < 0 ? 'less' : 'more'}`
  const ago =
    found.days <= 0 ? 'earlier that day' : found.days === 1 ? 'the day before' : `${found.days} days before`
  return `${shown} is ${size} than ${ago} (${gramsWords(found.before)}). Is it right?`
}

/** "From 895 g on 22 November to 940 g on 28 November". */
export function weightsSentence(
  first: { readonly grams: number; readonly day: string },
  last: { readonly grams: number; readonly day: string },
): string {
  return `From ${gramsWords(first.grams)} on ${first.day} to ${gramsWords(last.grams)} on ${last.day}`
}
