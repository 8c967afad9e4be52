/**
 * How a case ends, in words: the two questions and the terms that follow.
 */
import type { AliveAnswer, Outcome, WhereNow } from '#lib/domain/outcome.ts'

export const OUTCOME_QUESTIONS = {
  alive: 'Is it alive?',
  whereNow: 'Where is it now?',
  how: 'What happened?',
} as const

const ALIVE: Readonly<Record<AliveAnswer, string>> = {
  alive: 'Alive',
  dead: 'Dead',
  'not known': 'Not known',
}
const WHERE: Readonly<Record<WhereNow, string>> = {
  'in the wild': 'Let go into the wild',
  'with its parents': 'Back with its parents',
  'got away': 'It got away',
  'with somebody outside': 'With somebody outside the network',
  'in a home for good': 'In a home for good',
  'with us': 'Still with us',
  'died by itself': 'It died in care',
  'euthanased by a vet': 'A vet euthanased it',
  'dead when it came': 'It was dead when it came',
  'nobody knows': 'Nobody knows',
}
const TERM: Readonly<Record<Outcome, string>> = {
  released: 'Released',
  died: 'Died',
  euthanased: 'Euthanased',
  'dead on arrival': 'Dead on arrival',
  reunited: 'Reunited',
  escaped: 'Escaped',
  'transferred out': 'Transferred out of the network',
  'permanent care': 'Permanent care',
  unknown: 'Unknown',
}

export function aliveWords(answer: AliveAnswer): string {
  return ALIVE[answer]
}

export function whereNowWords(where: WhereNow): string {
  return WHERE[where]
}

/** The term of the record. */
export function outcomeWords(outcome: Outcome): string {
  return TERM[outcome]
}

/** "Recorded as: Released". */
export function recordedAs(outcome: Outcome): string {
  return `Recorded as: ${TERM[outcome]}`
}
