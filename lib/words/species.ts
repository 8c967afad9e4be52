/**
 * Animals in words: how a search answers, what a stand-in means, how many.
 */
import type { Preys } from '#lib/domain/species.ts'

/** "Kestrel, Falco tinnunculus". */
export function speciesLine(species: {
  readonly common_name: string
  readonly scientific_name: string | null
}): string {
  return species.scientific_name === null
    ? species.common_name
    : `${species.common_name}, ${species.scientific_name}`
}

/** What was matched, where it is not the name itself: "Kestrel (windhover)". */
export function hitWords(name: string, matched: string): string {
  return matched === name ? name : `${name} (${matched})`
}

export const STAND_IN = 'Stands in until it is named'
export const NOTHING_FOUND = 'No animal of that name. Choose what it looks like below.'

/** "1 kestrel", "6 mallards"; names that end oddly are said as "6 animals (...)". */
export function countWords(count: number, name: string): string {
  if (count === 1) return `1 ${lower(name)}`
  const isPlain = !/[,(]/.test(name) && !/(s|x|fox|goose|mouse|wolf)$/i.test(name)
  return isPlain ? `${count} ${lower(name)}s` : `${count} animals (${lower(name)})`
}

export function preysWords(preys: Preys | null): string {
  if (preys === null) return 'Neither predator nor prey'
  return preys === 'predator' ? 'Predator' : 'Prey'
}

/** "usually 136 to 314 g". */
export function massWords(low: number | null, high: number | null): string {
  if (low === null || high === null) return 'weight not given'
  const inKg = high >= 2000
  const say = (grams: number) => (inKg ? Math.round(grams / 100) / 10 : Math.round(grams))
  return `usually ${say(low)} to ${say(high)} ${inKg ? 'kg' : 'g'}`
}

function lower(name: string): string {
  return name.charAt(0).toLowerCase() + name.slice(1)
}
