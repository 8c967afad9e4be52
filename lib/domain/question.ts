/**
 * The questions of a call: what a condition asks first, and the few that cannot wait.
 * Promise: one closed list with the kind of answer each takes; what is asked depends on the animal and on what is
 * wrong, those that cannot wait first. The sentences are in lib/words.
 */
import type { AnimalClass } from './species.ts'

/** Answered yes, no or "not known". */
export const YES_NO_QUESTIONS = [
  'danger',
  'bitten',
  'several-dead',
  'nerves',
  'breathing',
  'bleeding',
  'conscious',
  'bone-through-skin',
  'injury',
  'other-injury',
  'cat',
  'flies',
  'line-from-mouth',
  'oil',
  'wobbling',
  'parents',
  'touched',
  'person-touched-it',
  'dog-about',
  'nest-known',
  'other-young',
  'young-nearby',
  'young-season',
  'carrying-young',
  'both-eyes-open',
  'one-or-both-bones',
  'weight-under-1kg',
  'can-it-be-caught',
  'on-water',
  'several-affected',
  'gull-goose-swan-duck-or-raptor',
  'pets-in-contact',
  'pets-or-poultry',
  'pet-rabbits-at-home',
  'bait-seen',
  'wire-live',
] as const
export type YesNoQuestion = (typeof YES_NO_QUESTIONS)[number]

/** Answered in the finder's words. */
export const OPEN_QUESTIONS = [
  'since-when',
  'age',
  'size-of-animal',
  'which-species',
  'what-substance',
  'how-long',
  'how-long-hanging',
  'height',
  'weight',
  'how-many',
  'kept-since',
  'case-number',
] as const
export type OpenQuestion = (typeof OPEN_QUESTIONS)[number]

export type Question = YesNoQuestion | OpenQuestion

export const ANSWERS = ['yes', 'no', 'unknown'] as const
export type Answer = (typeof ANSWERS)[number]
export type Answers = Readonly<Partial<Record<YesNoQuestion, Answer>>>

/** People first, then what would change where the animal may go, then its life. */
export const CANNOT_WAIT: readonly Question[] = [
  'danger',
  'bitten',
  'several-dead',
  'nerves',
  'breathing',
  'bleeding',
  'conscious',
]

export function isYesNoQuestion(question: string): question is YesNoQuestion {
  return YES_NO_QUESTIONS.some(one => one === question)
}

export function isOpenQuestion(question: string): question is OpenQuestion {
  return OPEN_QUESTIONS.some(one => one === question)
}

/**
 * What to ask, in order: danger and bites always; signs of a notifiable disease for every bird that is screened; then
 * what the conditions ask. Each question once.
 */
export function questionsFor(
  asked: readonly { readonly asks_first: readonly string[] }[],
  animal: { readonly class: AnimalClass | undefined; readonly isScreened: boolean },
): Question[] {
  const screening: Question[] =
    animal.isScreened && animal.class !== 'mammal' ? ['several-dead', 'nerves'] : []
  const wanted = new Set<Question>(['danger', 'bitten', ...screening])
  for (const question of asked.flatMap(one => one.asks_first)) {
    if (isYesNoQuestion(question) || isOpenQuestion(question)) wanted.add(question)
  }
  const first = CANNOT_WAIT.filter(question => wanted.has(question))
  return [...first, ...[...wanted].filter(question => !first.includes(question))]
}
