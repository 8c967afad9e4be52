import { describe, expect, it } from 'vitest'
import { namesOf, type Occupant, withoutPlaceUnder } from '#lib/domain/occupant.ts'

const marram: Occupant = {
  reference: 'Marram 13',
  company: 'kestrels',
  isAlone: false,
  placeNo: 2,
  isPromise: false,
  enclosure: 'Cage 6',
}
const places = (count: number, company = 'kestrels') => [{ company, places: count }]

describe('a stocking', () => {
  it.each([
    ['holds whoever has a place below its number', marram, places(2), false],
    ['loses whoever stands above it', marram, places(1), true],
    ['loses whose company it no longer takes', marram, places(9, 'owls'), true],
    ['gives one place to whoever must be alone', { ...marram, isAlone: true }, places(5), true],
    ['loses nobody who has no place now', { ...marram, placeNo: null }, [], false],
  ] as const)('%s', (_, occupant, stocking, isLost) => {
    expect(withoutPlaceUnder([occupant], stocking)).toEqual(isLost ? [occupant] : [])
  })
})

describe('names', () => {
  it('tell who is in from who is promised, each once', () => {
    const promised = { ...marram, reference: 'Rush 12', isPromise: true }
    expect(namesOf([marram, promised, { ...marram, placeNo: 1 }])).toEqual({
      inside: ['Marram 13'],
      promised: ['Rush 12'],
    })
    expect(namesOf([])).toEqual({ inside: [], promised: [] })
  })
})
