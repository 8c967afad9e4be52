/**
 * The reference of a casualty: a word and two or three digits, to be said on the phone ("Marram 13").
 * Promise: words of the coast and its plants, no two of which sound alike (a test measures every pair); none is the
 * name of an animal that could be in care. A reference is not given again within two years.
 */
import { invariant } from '#lib/kernel/invariant.ts'
import type { Random } from '#lib/kernel/random.ts'

export const REFERENCE_WORDS = [
  'Marram',
  'Rush',
  'Fenland',
  'Campion',
  'Samphire',
  'Thrift',
  'Bracken',
  'Heather',
  'Juniper',
  'Lavender',
  'Hazel',
  'Willow',
  'Alder',
  'Blackthorn',
  'Bramble',
  'Cowslip',
  'Daffodil',
  'Foxglove',
  'Harebell',
  'Honeysuckle',
  'Meadow',
  'Mistletoe',
  'Primrose',
  'Tamarisk',
  'Valerian',
  'Lighthouse',
  'Lagoon',
  'Pebble',
  'Breakwater',
  'Causeway',
  'Lantern',
  'Moorland',
  'Orchard',
  'Paddock',
  'Sandbank',
  'Shingle',
  'Springtide',
  'Sunrise',
  'Umbrella',
  'Windmill',
  'Topsail',
  'Buttercup',
  'Dandelion',
  'Elderflower',
  'Knapweed',
  'Larkspur',
  'Mulberry',
  'Oakwood',
  'Parsley',
  'Rosemary',
  'Sorrel',
  'Zigzag',
  'Chestnut',
  'Gooseberry',
  'Marigold',
  'Nutmeg',
  'Oatfield',
  'Saffron',
  'Turnip',
  'Basalt',
  'Granite',
  'Hillside',
  'Ironstone',
  'Outcrop',
  'Waterfall',
  'Doorstep',
  'Gatepost',
  'Haystack',
  'Schooner',
  'Hornbeam',
  'Snowdrop',
  'Crocus',
  'Cranberry',
  'Spearmint',
  'Apricot',
  'Indigo',
] as const

/** Days before a reference may be given again; the table's rule says the same. */
export const REFERENCE_KEPT_DAYS = 730
const TWO_DIGITS = { from: 10, until: 100 }
const THREE_DIGITS = { from: 100, until: 1000 }
/** Two digits are shorter to say, but draws among nearly used-up ones would miss too often. */
const TWO_DIGITS_UNTIL_USED = 0.5

/** A reference that is not among those given in the last two years; two digits as long as half of those are free. */
export function nextReference(given: Iterable<string>, random: Random): string {
  const [short, long] = [newTaken(TWO_DIGITS), newTaken(THREE_DIGITS)]
  for (const reference of given) {
    const space = reference.lastIndexOf(' ')
    const word = WORD_PLACES.get(reference.slice(0, space))
    const number = Number(reference.slice(space + 1))
    if (word !== undefined) mark(number < TWO_DIGITS.until ? short : long, word, number)
  }
  const taken = short.count < TWO_DIGITS_GIVEN_MAX ? short : long
  const free = taken.places.length - taken.count
  invariant(free > 0, 'every reference was given within two years')
  return nthFree(taken, Math.min(Math.floor(random() * free), free - 1))
}

/** One chance as a reference of two digits and as one of three. */
export type ReferenceTry = { readonly short: string; readonly long: string }

/** Any reference, given or not: each as likely as another. */
export function tryReference(random: Random): ReferenceTry {
  const chance = random()
  return { short: referenceAt(TWO_DIGITS, chance), long: referenceAt(THREE_DIGITS, chance) }
}

/** From so many of two digits given in the last two years on, three are given. */
export const TWO_DIGITS_GIVEN_MAX = placesOf(TWO_DIGITS) * TWO_DIGITS_UNTIL_USED

/**
 * So many references, the first of those tried that are free: as likely as any other that `nextReference` would give,
 * without reading thousands that were given. Fewer where too many of those tried were taken.
 */
export function firstFree(
  count: number,
  tries: readonly ReferenceTry[],
  given: { readonly ofTried: ReadonlySet<string>; readonly twoDigits: number },
): string[] {
  const found = new Set<string>()
  let twoDigits = given.twoDigits
  for (const { short, long } of tries) {
    if (found.size === count) break
    const isShort = twoDigits < TWO_DIGITS_GIVEN_MAX
    const reference = isShort ? short : long
    if (given.ofTried.has(reference) || found.has(reference)) continue
    found.add(reference)
    twoDigits += isShort ? 1 : 0
  }
  return [...found]
}

/** A reference as it is written, from what somebody typed: "marram13", "MARRAM-13"; undefined for anything else. */
export function findReference(typed: string): string | undefined {
  const match = /^\s*([A-Za-z]+)[\s-]*(\d{2,3})\s*$/.exec(typed)
  const word = REFERENCE_WORDS.find(one => one.toLowerCase() === match?.[1]?.toLowerCase())
  return word === undefined ? undefined : `${word} ${match?.[2]}`
}

type Range = { readonly from: number; readonly until: number }

const WORD_PLACES: ReadonlyMap<string, number> = new Map(REFERENCE_WORDS.map((word, at) => [word, at]))

/** Every word with every number of a range, word by word: 1 where it was given. */
type Taken = { readonly range: Range; readonly places: Uint8Array; count: number }

function newTaken(range: Range): Taken {
  return { range, places: new Uint8Array(placesOf(range)), count: 0 }
}

function placesOf({ from, until }: Range): number {
  return REFERENCE_WORDS.length * (until - from)
}

function mark(taken: Taken, word: number, number: number): void {
  const { from, until } = taken.range
  const place = word * (until - from) + number - from
  if (!(number >= from && number < until) || taken.places[place] === 1) return
  taken.places[place] = 1
  taken.count += 1
}

function nthFree({ range, places }: Taken, nth: number): string {
  let place = 0
  for (let passed = 0; places[place] === 1 || passed < nth; place++) passed += places[place] === 1 ? 0 : 1
  return referenceOf(range, place)
}

function referenceAt(range: Range, chance: number): string {
  const places = placesOf(range)
  return referenceOf(range, Math.min(Math.floor(chance * places), places - 1))
}

function referenceOf({ from, until }: Range, place: number): string {
  const count = until - from
  return `${REFERENCE_WORDS[Math.floor(place / count)]} ${from + (place % count)}`
}
