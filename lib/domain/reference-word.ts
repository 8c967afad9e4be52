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
  const used = new Set(given)
  const short = placesIn(TWO_DIGITS, used)
  const isShort = short.length < sizeOf(TWO_DIGITS) * TWO_DIGITS_UNTIL_USED
  const [range, taken] = isShort ? [TWO_DIGITS, short] : [THREE_DIGITS, placesIn(THREE_DIGITS, used)]
  const free = sizeOf(range) - taken.length
  invariant(free > 0, 'every reference was given within two years')
  return nthFree(range, taken, Math.min(Math.floor(random() * free), free - 1))
}

/** A reference as it is written, from what somebody typed: "marram13", "MARRAM-13"; undefined for anything else. */
export function findReference(typed: string): string | undefined {
  const match = /^\s*([A-Za-z]+)[\s-]*(\d{2,3})\s*$/.exec(typed)
  const word = REFERENCE_WORDS.find(one => one.toLowerCase() === match?.[1]?.toLowerCase())
  return word === undefined ? undefined : `${word} ${match?.[2]}`
}

type Range = { readonly from: number; readonly until: number }

const WORD_PLACES: ReadonlyMap<string, number> = new Map(REFERENCE_WORDS.map((word, at) => [word, at]))

function sizeOf({ from, until }: Range): number {
  return REFERENCE_WORDS.length * (until - from)
}

/** Where the references of a range stand among all of it, lowest first. */
function placesIn({ from, until }: Range, references: ReadonlySet<string>): number[] {
  const places: number[] = []
  for (const reference of references) {
    const space = reference.lastIndexOf(' ')
    const word = WORD_PLACES.get(reference.slice(0, space))
    const number = Number(reference.slice(space + 1))
    if (word !== undefined && number >= from && number < until) {
      places.push(word * (until - from) + number - from)
    }
  }
  return places.sort((a, b) => a - b)
}

/** Counted, not listed: a new animal should not cost a list of every word with every number. */
function nthFree({ from, until }: Range, taken: readonly number[], nth: number): string {
  let place = nth
  for (const one of taken) {
    if (one > place) break
    place += 1
  }
  const count = until - from
  return `${REFERENCE_WORDS[Math.floor(place / count)]} ${from + (place % count)}`
}
