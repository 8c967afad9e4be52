/**
 * Whether two calls may be about the same animal, and which calls stand together once somebody said so.
 * Promise: only ever a question: near in place and time and of one kind. A stand-in may be whatever is of its class and
 * size. Common practice, no source: 1 km and 3 h.
 */
import type { CallFacts } from './call-facts.ts'
import type { SpeciesKnowledge } from './knowledge.ts'
import { straightKm } from './place.ts'

export const NEAR_KM = 1
export const NEAR_HOURS = 3
const MS_PER_HOUR = 3_600_000

export type HeardOf = {
  readonly openedAt: Date
  readonly facts: Pick<CallFacts, 'species' | 'where'>
}

type Kind = Pick<
  SpeciesKnowledge,
  'slug' | 'class' | 'group_slug' | 'is_stand_in' | 'mass_g_low' | 'mass_g_high' | 'preys'
>

/** Whether to ask "same animal?" of two calls. */
export function mayBeSame(a: HeardOf, b: HeardOf, species: ReadonlyMap<string, Kind>): boolean {
  const kinds = [a, b].map(({ facts }) => species.get(facts.species ?? ''))
  const [one, other] = kinds
  if (one === undefined || other === undefined || a.facts.where === null || b.facts.where === null)
    return false
  const apart = Math.abs(a.openedAt.getTime() - b.openedAt.getTime())
  return (
    apart <= NEAR_HOURS * MS_PER_HOUR &&
    isOneKind(one, other) &&
    straightKm(a.facts.where, b.facts.where) <= NEAR_KM
  )
}

/** The same species, the same group, or a stand-in for something of the other's class, size and way of living. */
function isOneKind(a: Kind, b: Kind): boolean {
  if (a.slug === b.slug || a.group_slug === b.group_slug) return true
  if (!a.is_stand_in && !b.is_stand_in) return false
  return a.class === b.class && (a.preys ?? b.preys) === (b.preys ?? a.preys) && overlaps(a, b)
}

function overlaps(a: Kind, b: Kind): boolean {
  const low = Math.max(a.mass_g_low ?? 0, b.mass_g_low ?? 0)
  const high = Math.min(a.mass_g_high ?? Number.POSITIVE_INFINITY, b.mass_g_high ?? Number.POSITIVE_INFINITY)
  return low <= high
}

/** Two calls, and whether somebody decided that they are about the same animal. */
export type Pair = { readonly firstId: number; readonly secondId: number; readonly isSame: boolean }

/** Calls in the order given, those about the same animal together at the place of the first of them. */
export function groupsOfSame<T extends { readonly id: number }>(
  calls: readonly T[],
  pairs: readonly Pair[],
): T[][] {
  const leaders = new Map<number, number>()
  const leaderOf = (id: number): number => {
    const leader = leaders.get(id) ?? id
    return leader === id ? id : leaderOf(leader)
  }
  for (const { firstId, secondId, isSame } of pairs) {
    if (isSame) leaders.set(leaderOf(secondId), leaderOf(firstId))
  }
  const groups = new Map<number, T[]>()
  for (const call of calls) {
    const leader = leaderOf(call.id)
    groups.set(leader, [...(groups.get(leader) ?? []), call])
  }
  return [...groups.values()]
}
