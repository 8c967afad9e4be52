import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { editDistance, isWithin, plain, search } from '#lib/domain/search.ts'

const find = (typed: string, ...texts: string[]) =>
  search(typed, texts, text => [{ text, rank: 0 }]).map(hit => hit.item)

describe('a search by a few letters', () => {
  test('puts the whole name before the start of a name before a later word', () => {
    expect(find('owl', 'Barn owl', 'Owlet moth', 'Owl')).toEqual(['Owl', 'Owlet moth', 'Barn owl'])
  })

  test('needs every typed word', () => {
    expect(find('red wing', 'Red kite', 'Redwing', 'Wing of red')).toEqual(['Wing of red'])
  })

  test('forgives one letter from four on, two from eight on, none before', () => {
    expect(find('kestrl', 'Kestrel')).toEqual(['Kestrel'])
    expect(find('ketsr', 'Kestrel')).toEqual(['Kestrel'])
    expect(find('sparowhak', 'Sparrowhawk')).toEqual(['Sparrowhawk'])
    expect(find('kas', 'Kestrel')).toEqual([])
  })

  test('finds nothing for nothing', () => {
    expect(find('  ', 'Kestrel')).toEqual([])
  })

  test('stops at the limit', () => {
    expect(search('a', ['aa', 'ab', 'ac'], text => [{ text, rank: 0 }], 2)).toHaveLength(2)
  })

  test('reads past accents, apostrophes and capitals', () => {
    expect(plain("  Daubenton's Bät! ")).toBe('daubentons bat')
  })
})

describe('the distance of two words', () => {
  test.each([
    ['', '', 0],
    ['kestrel', 'kestrel', 0],
    ['kestrel', 'kestrl', 1],
    ['kestrel', 'ketsrel', 1],
    ['kitten', 'sitting', 3], // Wagner and Fischer's usual example (textbook, from memory)
  ])('of %s and %s is %i', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance)
    expect([isWithin(a, b, distance), distance > 0 && isWithin(a, b, distance - 1)]).toEqual([true, false])
  })

  test('is the same both ways and no longer than the longer word', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        const there = editDistance(a, b)
        expect(editDistance(b, a)).toBe(there)
        expect(there).toBeLessThanOrEqual(Math.max(a.length, b.length))
        expect(there === 0).toBe(a === b)
      }),
    )
  })
})
