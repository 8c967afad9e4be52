/**
 * When the right answer is to leave a young animal where it is (trade 4.2, common practice).
 * Promise: never before injury, cat and danger have been asked and denied; never for an adult, for a kind that cannot
 * be left, or beside any other condition.
 */

import type { Answers, YesNoQuestion } from './question.ts'
import type { Age, AnimalClass } from './species.ts'

/** Conditions that mean a young animal with nothing wrong. */
export const YOUNG_NOT_HURT: readonly string[] = ['displaced-fledgling', 'young-waiting']
const ASKED_FIRST: readonly YesNoQuestion[] = ['injury', 'cat', 'danger']
/** Signs that speak against it when somebody has mentioned them. */
const AGAINST: readonly YesNoQuestion[] = ['bleeding', 'breathing', 'flies', 'bone-through-skin', 'wobbling']

export type LeaveAdvice = 'fledgling' | 'owlet' | 'fawn' | 'leveret' | 'seal pup' | 'cub' | 'young'

const ADVICE_BY_GROUP: Readonly<Record<string, LeaveAdvice>> = {
  owls: 'owlet',
  deer: 'fawn',
  'rabbits-hares': 'leveret',
  seals: 'seal pup',
  foxes: 'cub',
  badgers: 'cub',
  otters: 'cub',
}

/**
 * Young of these groups on the ground or out by day need help even when unhurt: a swift cannot take off, ducklings
 * and cygnets are led by a parent, hoglets and bats are out by day only when something is wrong. Common practice.
 */
const NOT_LEFT_GROUPS: readonly string[] = ['swifts', 'ducks', 'swans', 'geese', 'hedgehogs', 'bats']

export type LeaveAlone =
  | { readonly kind: 'leave'; readonly advice: LeaveAdvice }
  | { readonly kind: 'ask'; readonly questions: readonly YesNoQuestion[] }
  | { readonly kind: 'no'; readonly because: 'not a case' | 'adult' | 'kind' | 'other condition' }
  | { readonly kind: 'no'; readonly because: 'answer'; readonly question: YesNoQuestion }

export type LeaveCase = {
  readonly conditions: readonly string[]
  readonly answers: Answers
  readonly age: Age
  readonly group: string | undefined
  readonly class: AnimalClass | undefined
}

/** Whether to advise leaving it, or what must be asked before anybody may say so. */
export function leaveAlone({ conditions, answers, age, group, class: animalClass }: LeaveCase): LeaveAlone {
  if (!conditions.some(slug => YOUNG_NOT_HURT.includes(slug))) return { kind: 'no', because: 'not a case' }
  if (conditions.some(slug => !YOUNG_NOT_HURT.includes(slug)))
    return { kind: 'no', because: 'other condition' }
  if (age === 'adult') return { kind: 'no', because: 'adult' }
  if (group !== undefined && NOT_LEFT_GROUPS.includes(group)) return { kind: 'no', because: 'kind' }
  const against = [...ASKED_FIRST, ...AGAINST].find(question => answers[question] === 'yes')
  if (against !== undefined) return { kind: 'no', because: 'answer', question: against }
  if (answers.conscious === 'no') return { kind: 'no', because: 'answer', question: 'conscious' }
  // "Not known" is no answer here: an injury that nobody has looked for is not an injury denied.
  const open = ASKED_FIRST.filter(question => answers[question] !== 'no')
  if (open.length > 0) return { kind: 'ask', questions: open }
  const own = group === undefined ? undefined : ADVICE_BY_GROUP[group]
  return { kind: 'leave', advice: own ?? (animalClass === 'mammal' ? 'young' : 'fledgling') }
}
