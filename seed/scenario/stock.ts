/**
 * How many animals of a company an enclosure of the scenario takes: the group's figure for a typical enclosure of the
 * type, more in a much larger one. A company that no species could live in there is not listed at all.
 */
import type { HousingType } from '#lib/domain/housing.ts'
import type { GroupKnowledge, SpeciesKnowledge } from '#lib/domain/knowledge.ts'
import type { EnclosurePlan } from './centre-types.ts'

/** Floor of a typical aviary, pen or pool in square metres (reference: keys, and trade 1.2 for the flight). */
const TYPICAL_M2: Partial<Record<HousingType, number>> = {
  'indoor-pen': 4,
  'sheltered-aviary': 5.4,
  'flight-aviary': 12,
  'pool-pen': 12,
  'outdoor-pen': 24,
}
const TIMES_MAX = 3

/** Company -> animals, for the species given, each with its group. */
export function stockingOf(
  enclosure: EnclosurePlan,
  species: readonly { readonly species: SpeciesKnowledge; readonly group: GroupKnowledge }[],
): ReadonlyMap<string, number> {
  const places = new Map<string, number>()
  for (const { species: one, group } of species) {
    const animals = group.stock[enclosure.type]
    if (animals === undefined || !canLiveIn(one, enclosure)) continue
    const now = Math.max(1, Math.floor(animals * timesTypical(enclosure)))
    places.set(one.company_slug, Math.min(places.get(one.company_slug) ?? now, now))
  }
  return places
}

/** Limited flight asks for about a third of the full length; ours, the same as the rule of the desk. */
const LIMITED_FLIGHT_SHARE = 1 / 3

function canLiveIn(species: SpeciesKnowledge, { type, metres, sizeRank }: EnclosurePlan): boolean {
  const length = Math.max(metres[0], metres[1])
  const flight = species.flight_length_min_m
  if (type === 'flight-aviary') return flight !== null && flight <= length
  if (type === 'sheltered-aviary') return (flight ?? 0) * LIMITED_FLIGHT_SHARE <= length
  return species.size_rank <= sizeRank
}

function timesTypical({ type, metres }: EnclosurePlan): number {
  const typical = TYPICAL_M2[type]
  if (typical === undefined) return 1
  return Math.min(TIMES_MAX, Math.max(1, Math.floor((metres[0] * metres[1]) / typical)))
}
