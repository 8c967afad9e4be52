import { doubleMetaphone } from 'double-metaphone'
import { describe, expect, test } from 'vitest'
import {
  findReference,
  firstFree,
  nextReference,
  REFERENCE_WORDS,
  TWO_DIGITS_GIVEN_MAX,
  tryReference,
} from '#lib/domain/reference-word.ts'
import { editDistance, plain } from '#lib/domain/search.ts'
import { referenceTrade } from '#tests/support/reference.ts'

/** Letters by which the sounds of two words differ: Philips's Double Metaphone (2000), both readings of each word. */
function soundDistance(a: string, b: string): number {
  return Math.min(...doubleMetaphone(a).flatMap(x => doubleMetaphone(b).map(y => editDistance(x, y))))
}

const pairs = REFERENCE_WORDS.flatMap((a, at) => REFERENCE_WORDS.slice(at + 1).map(b => [a, b] as const))

describe('the words of references', () => {
  test('are at least sixty, each once, of three to twelve letters', () => {
    expect(REFERENCE_WORDS.length).toBeGreaterThanOrEqual(60)
    expect(new Set(REFERENCE_WORDS).size).toBe(REFERENCE_WORDS.length)
    expect(REFERENCE_WORDS.filter(word => !/^[A-Z][a-z]{3,11}$/.test(word))).toEqual([])
  })

  test('never sound alike: two sounds apart in every pair', () => {
    expect(pairs.filter(([a, b]) => soundDistance(a, b) < 2)).toEqual([])
  })

  test('are never written alike: four letters apart in every pair', () => {
    expect(pairs.filter(([a, b]) => editDistance(a.toLowerCase(), b.toLowerCase()) < 4)).toEqual([])
  })

  test('name no animal that could be in care', () => {
    const names = referenceTrade().species.flatMap(one => [one.common_name, ...one.also_called].map(plain))
    expect(REFERENCE_WORDS.filter(word => names.includes(plain(word)))).toEqual([])
  })

  test('measure would find a pair that does', () => {
    expect(soundDistance('Hazel', 'Hassel')).toBeLessThan(2)
    expect(soundDistance('Thrift', 'Drift')).toBeLessThan(2)
  })
})

describe('the next reference', () => {
  test('is a word and two digits', () => {
    expect(nextReference([], () => 0)).toBe('Marram 10')
    expect(nextReference([], () => 0.999_999_999)).toBe('Indigo 99')
  })

  test('is not one that was given', () => {
    expect(nextReference(['Marram 10'], () => 0)).toBe('Marram 11')
    expect(nextReference(['Marram 11', 'Marram 10', 'Marram 10'], () => 0)).toBe('Marram 12')
    expect(nextReference(['Indigo 99'], () => 0.999_999_999)).toBe('Indigo 98')
    expect(nextReference(['Marram 100', 'Osprey 10'], () => 0)).toBe('Marram 10')
  })

  test('is each that is left, in order, as the chance goes through them', () => {
    const given = REFERENCE_WORDS.slice(0, 30).map((word, at) => `${word} ${10 + 3 * at}`)
    const left = REFERENCE_WORDS.flatMap(word =>
      Array.from({ length: 90 }, (_, at) => `${word} ${at + 10}`),
    ).filter(reference => !given.includes(reference))
    const drawn = left.map((_, nth) => nextReference(given, () => (nth + 0.5) / left.length))
    expect(drawn).toEqual(left)
  })

  test('has three digits when half of the short ones are out', () => {
    const given = REFERENCE_WORDS.slice(0, REFERENCE_WORDS.length / 2).flatMap(word =>
      Array.from({ length: 90 }, (_, at) => `${word} ${at + 10}`),
    )
    expect(nextReference(given, () => 0)).toBe('Marram 100')
  })
})

describe('references tried', () => {
  const tries = [0, 0.2, 0.2, 0.4, 0.6].map(chance => tryReference(() => chance))
  const of = (digits: 'short' | 'long', ...nths: readonly number[]) => nths.map(nth => tries[nth]?.[digits])

  test('are what the next one would be, had none been given', () => {
    for (const chance of [0, 0.3, 0.999_999_999])
      expect(tryReference(() => chance).short).toBe(nextReference([], () => chance))
    expect(tryReference(() => 0)).toEqual({ short: 'Marram 10', long: 'Marram 100' })
    expect(tryReference(() => 0.999_999_999)).toEqual({ short: 'Indigo 99', long: 'Indigo 999' })
  })

  test('give the first that are free, none twice, and too few where too many were taken', () => {
    const given = { ofTried: new Set(of('short', 0).flatMap(one => one ?? [])), twoDigits: 1 }
    expect(firstFree(2, tries, given)).toEqual(of('short', 1, 3))
    expect(firstFree(3, tries, given)).toEqual(of('short', 1, 3, 4))
    expect(firstFree(4, tries, given)).toEqual(of('short', 1, 3, 4))
  })

  test('have three digits from when half of the short ones are out', () => {
    const given = { ofTried: new Set<string>(), twoDigits: TWO_DIGITS_GIVEN_MAX - 1 }
    expect(firstFree(3, tries, given)).toEqual([...of('short', 0), ...of('long', 1, 3)])
  })
})

test.each([
  ['marram 13', 'Marram 13'],
  [' MARRAM-13 ', 'Marram 13'],
  ['rush123', 'Rush 123'],
  ['gull 13', undefined],
  ['Marram 1', undefined],
  ['Marram', undefined],
])('%s is read as %s', (typed, reference) => {
  expect(findReference(typed)).toBe(reference)
})
