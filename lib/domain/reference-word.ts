/**
 * The reference of a casualty: a word and two or three digits, to be said on the phone ("Marram 13").
 * Promise: words of the coast and its plants, no two of which sound alike (a test measures every pair); none is the
 * name of an animal that could be in care. A reference is not given again within two years.
 */
import { invariant } from '#lib/kernel/invariant.ts'
import type { Random } from '#lib/kernel/random.ts'
import type { DayNumber } from './day.ts'

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

export type GivenReference = { readonly reference: string; readonly givenOn: DayNumber }

/** A reference that nobody has had for two years; two digits as long as half of those are free. */
export function nextReference(given: readonly GivenReference[], today: DayNumber, random: Random): string {
  const used = new Set(
    given.filter(one => today - one.givenOn < REFERENCE_KEPT_DAYS).map(one => one.reference),
  )
  const short = [...used].filter(reference => /\s\d{2}$/.test(reference)).length
  const ofShort = REFERENCE_WORDS.length * (TWO_DIGITS.until - TWO_DIGITS.from)
  const free = short < ofShort * TWO_DIGITS_UNTIL_USED ? freeIn(TWO_DIGITS, used) : freeIn(THREE_DIGITS, used)
  invariant(free.length > 0, 'every reference was given within two years')
  return free[Math.min(Math.floor(random() * free.length), free.length - 1)] ?? ''
}

/** A reference as it is written, from what somebody typed: "marram13", "MARRAM-13"; undefined for anything else. */
export function findReference(typed: string): string | undefined {
  const match = /^\s*([A-Za-z]+)[\s-]*(\d{2,3})\s*$/.exec(typed)
  const word = REFERENCE_WORDS.find(one => one.toLowerCase() === match?.[1]?.toLowerCase())
  return word === undefined ? undefined : `${word} ${match?.[2]}`
}

function freeIn({ from, until }: { from: number; until: number }, used: ReadonlySet<string>): string[] {
  const free: string[] = []
  for (const word of REFERENCE_WORDS) {
    for (let number = from; number < until; number++) {
      const reference = `${word} ${number}`
      if (!used.has(reference)) free.push(reference)
    }
  }
  return free
}
