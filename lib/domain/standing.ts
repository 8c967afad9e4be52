/**
 * Whether a ranked answer still stands: what it was ranked by, small enough to be compared where it is shown.
 * Promise: names the facts of the network and of the call that changed since; nothing named and the order the same
 * means that the answer stands, whatever its figures.
 */
import type { CallFacts } from './call-facts.ts'
import type { RankedOptions } from './option.ts'

export type Standing = {
  readonly facts: CallFacts
  /** Free places for the first stage when the animals would come, by name of the centre. */
  readonly places: Readonly<Record<string, number>>
  /** Who could take it, and the options in order. */
  readonly offered: readonly string[]
  readonly order: readonly string[]
}

export type Change =
  | { readonly kind: 'fact'; readonly field: keyof CallFacts }
  | { readonly kind: 'places'; readonly centre: string; readonly more: number }
  | { readonly kind: 'offered' | 'not offered'; readonly who: string }
  | { readonly kind: 'order' }

/** What a ranking stands on. */
export function standingOf(
  facts: CallFacts,
  { options }: RankedOptions,
  places: Standing['places'],
): Standing {
  const offered = options.flatMap(({ to }) => (to === null ? [] : [to.name]))
  return { facts, places, offered: [...new Set(offered)].sort(), order: options.map(({ key }) => key) }
}

/** What changed from one ranking to a later one. */
export function changesBetween(before: Standing, now: Standing): Change[] {
  const changes: Change[] = [
    ...listChangedFacts(before.facts, now.facts).map(field => ({ kind: 'fact', field }) as const),
    ...goneFrom(before.offered, now.offered).map(who => ({ kind: 'not offered', who }) as const),
    ...goneFrom(now.offered, before.offered).map(who => ({ kind: 'offered', who }) as const),
    ...Object.entries(now.places).flatMap(([centre, places]) => {
      const more = places - (before.places[centre] ?? places)
      return more === 0 ? [] : [{ kind: 'places', centre, more } as const]
    }),
  ]
  const isReordered = JSON.stringify(before.order) !== JSON.stringify(now.order)
  return changes.length === 0 && isReordered ? [{ kind: 'order' }] : changes
}

function goneFrom(before: readonly string[], now: readonly string[]): string[] {
  return before.filter(one => !now.includes(one))
}

/** Whether two sheets differ in what the options depend on: the first is then no longer the answer to the second. */
export function listChangedFacts(before: CallFacts, after: CallFacts): (keyof CallFacts)[] {
  return RANKED_BY.filter(field => JSON.stringify(before[field]) !== JSON.stringify(after[field]))
}

/** The fields the options depend on; names, notes and the finder's words are not among them. */
const RANKED_BY = [
  'dangers',
  'answers',
  'species',
  'age',
  'count',
  'isBrood',
  'where',
  'conditions',
  'urgency',
  'isCaught',
  'hasFinder',
  'vetKeeps',
  'outsideExamination',
  'authorityLeave',
] as const satisfies readonly (keyof CallFacts)[]
