/**
 * Species as the desk meets them: found by a few letters, or stood in for by size until somebody can name them.
 * Promise: a stand-in ("brown bird, pigeon-sized") is a species with the strictest handling, listed after the named
 * ones. Groups at risk of a notifiable disease are told apart whatever the injury.
 */
import type { SpeciesKnowledge } from './knowledge.ts'
import { type Hit, search } from './search.ts'

export const CLASSES = ['bird', 'mammal'] as const
export type AnimalClass = (typeof CLASSES)[number]

export const AGES = ['adult', 'young', 'unknown'] as const
export type Age = (typeof AGES)[number]

export type Preys = 'predator' | 'prey'

/**
 * Groups at high risk of avian influenza: waterfowl, gulls, raptors (reference: plans, "Columns"). Injury does not
 * rule it out (trade S16). Single species outside these groups carry the handling key of their own.
 */
export const HIGH_RISK_INFLUENZA_GROUPS: readonly string[] = [
  'swans',
  'geese',
  'ducks',
  'gulls-large',
  'gulls-small',
  'hawks',
  'buzzards-kites-harriers',
  'falcons',
  'eagles-osprey',
  'owls',
  'unknown-raptors',
]
const OUTSIDE_FIRST = 'hpai-outside-first'

/** Whether birds of this kind are looked at outside first: by their group, or by their own handling key. */
export function isHighRiskInfluenza(
  animal: Pick<SpeciesKnowledge, 'group_slug' | 'handling_cautions'>,
): boolean {
  return (
    HIGH_RISK_INFLUENZA_GROUPS.includes(animal.group_slug) || animal.handling_cautions.includes(OUTSIDE_FIRST)
  )
}

type Findable = Pick<SpeciesKnowledge, 'common_name' | 'also_called' | 'scientific_name' | 'is_stand_in'>

/** Species by a few letters of a common name, a finder's word or the scientific name; stand-ins after named ones. */
export function searchSpecies<T extends Findable>(typed: string, all: readonly T[], limit = 12): Hit<T>[] {
  return search(
    typed,
    all,
    one => [
      { text: one.common_name, rank: one.is_stand_in ? 0.25 : 0 },
      ...one.also_called.map(text => ({ text, rank: one.is_stand_in ? 0.75 : 0.5 })),
      ...(one.scientific_name === null ? [] : [{ text: one.scientific_name, rank: 0.75 }]),
    ],
    limit,
  )
}

/** The stand-ins of a class, smallest first: what is asked when nobody can name the animal. */
export function standIns<
  T extends Pick<SpeciesKnowledge, 'is_stand_in' | 'class' | 'size_rank' | 'common_name'>,
>(all: readonly T[], animalClass?: AnimalClass): T[] {
  return all
    .filter(one => one.is_stand_in && (animalClass === undefined || one.class === animalClass))
    .sort((a, b) => a.size_rank - b.size_rank || (a.common_name < b.common_name ? -1 : 1))
}

/**
 * What stands in for an animal that is one of several, until somebody tells which: of their class and, where there is
 * one, their place in the food chain; the smallest that none of them outgrows, so that any of them fits where it fits.
 */
export function standInFor<
  T extends Pick<SpeciesKnowledge, 'is_stand_in' | 'class' | 'preys' | 'size_rank' | 'common_name'>,
>(several: readonly T[], all: readonly T[]): T | undefined {
  const named = several.filter(one => !one.is_stand_in)
  const [first] = named
  if (first === undefined || named.length < several.length) return undefined
  if (named.some(one => one.class !== first.class)) return undefined
  const largest = Math.max(...named.map(one => one.size_rank))
  const fits = standIns(all, first.class).filter(one => one.size_rank >= largest)
  return fits.find(one => one.preys === first.preys) ?? fits[0]
}
