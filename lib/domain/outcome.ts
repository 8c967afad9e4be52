/**
 * How a case ends: asked as two questions (alive? where now?), from which the statutory term follows.
 * Promise: every pair of answers that makes sense has exactly one term, others none. An animal still in care has no
 * outcome. What bars a release is another question; euthanasia is recorded here, decided by a vet.
 */

/** The terms of the record; "transferred out" is out of the network. */
export const OUTCOMES = [
  'released',
  'died',
  'euthanased',
  'dead on arrival',
  'reunited',
  'escaped',
  'transferred out',
  'permanent care',
  'unknown',
] as const
export type Outcome = (typeof OUTCOMES)[number]

export const ALIVE_ANSWERS = ['alive', 'dead', 'not known'] as const
export type AliveAnswer = (typeof ALIVE_ANSWERS)[number]

/** Where it is now, or how it came to be where it is: what can be answered after each first answer. */
export const WHERE_NOW = {
  alive: [
    'in the wild',
    'with its parents',
    'got away',
    'with somebody outside',
    'in a home for good',
    'with us',
  ],
  dead: ['died by itself', 'euthanased by a vet', 'dead when it came'],
  'not known': ['nobody knows'],
} as const satisfies Record<AliveAnswer, readonly string[]>
export type WhereNow = (typeof WHERE_NOW)[AliveAnswer][number]

const TERMS: Readonly<Record<WhereNow, Outcome | null>> = {
  'in the wild': 'released',
  'with its parents': 'reunited',
  'got away': 'escaped',
  'with somebody outside': 'transferred out',
  'in a home for good': 'permanent care',
  'with us': null,
  'died by itself': 'died',
  'euthanased by a vet': 'euthanased',
  'dead when it came': 'dead on arrival',
  'nobody knows': 'unknown',
}

export type OutcomeFound =
  | { readonly kind: 'ended'; readonly outcome: Outcome }
  | { readonly kind: 'in care' }
  | { readonly kind: 'no such pair' }

/** The term of two answers. */
export function outcomeOf(alive: AliveAnswer, where: WhereNow): OutcomeFound {
  if (!(WHERE_NOW[alive] as readonly WhereNow[]).includes(where)) return { kind: 'no such pair' }
  const outcome = TERMS[where]
  return outcome === null ? { kind: 'in care' } : { kind: 'ended', outcome }
}

/** Whether the animal was alive when the case ended; null where nobody knows. */
export function isAliveAfter(outcome: Outcome): boolean | null {
  if (outcome === 'unknown') return null
  return !['died', 'euthanased', 'dead on arrival'].includes(outcome)
}
