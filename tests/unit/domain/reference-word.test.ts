import { doubleMetaphone } from 'double-metaphone'
import { describe, expect, test } from 'vitest'
import {
  findReference,
  nextReference,
  REFERENCE_KEPT_DAYS,
  REFERENCE_WORDS,
} from '#lib/domain/reference-word.ts'
import { editDistance, plain } from '#lib/domain/search.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const today = 20_782

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
    expect(nextReference([], today, () => 0)).toBe('Marram 10')
    expect(nextReference([], today, () => 0.999_999_999)).toBe('Indigo 99')
  })

  test('is not one that was given within two years, and is afterwards', () => {
    const given = (daysAgo: number) => [{ reference: 'Marram 10', givenOn: today - daysAgo }]
    expect(nextReference(given(REFERENCE_KEPT_DAYS - 1), today, () => 0)).toBe('Marram 11')
    expect(nextReference(given(REFERENCE_KEPT_DAYS), today, () => 0)).toBe('Marram 10')
  })

  test('has three digits when half of the short ones are out', () => {
    const given = REFERENCE_WORDS.slice(0, REFERENCE_WORDS.length / 2).flatMap(word =>
      Array.from({ length: 90 }, (_, at) => ({ reference: `${word} ${at + 10}`, givenOn: today })),
    )
    expect(nextReference(given, today, () => 0)).toBe('Marram 100')
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
