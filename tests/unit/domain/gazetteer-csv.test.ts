import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PLACE_KINDS, place } from '#lib/domain/gazetteer.ts'
import { keyOf, placesCsv, readPlaces } from '#lib/domain/gazetteer-csv.ts'

const word = fc
  .string({ minLength: 1, maxLength: 30 })
  .map(text => text.replaceAll(';', ' ').trim())
  .filter(text => text !== '')
const name = fc.oneof(
  word,
  fc.constantFrom('=cmd', "'=cmd", '-', 'High "Street"', 'Mill, old', 'two\nlines', '@home', "'"),
)
/** Ten-millionths of a degree: a centimetre. */
const degrees = (most: number) =>
  fc.integer({ min: -most * 1e7, max: most * 1e7 }).map(tenth => tenth / 1e7 + 0)
const places = fc.uniqueArray(
  fc.record({
    name,
    kind: fc.constantFrom(...PLACE_KINDS),
    alsoCalled: fc.array(word, { maxLength: 5 }),
    latitude: degrees(90),
    longitude: degrees(180),
  }),
  { selector: keyOf },
)

describe('the gazetteer as a table', () => {
  it('comes back as it was: import of export is the same', () => {
    fc.assert(
      fc.property(places, all => {
        expect(all.every(one => place.safeParse(one).success)).toBe(true)
        expect(readPlaces(placesCsv(all))).toEqual({ places: all, complaints: [] })
      }),
    )
  })

  it('is complained about by line and column, every fault of every row', () => {
    const text = [
      'Name;Kind;Latitude;Longitude',
      'Fenmoor;village;54,2;-3,1',
      ';hamlet;north;-3',
      'Mill;landmark;54;181',
      'Fenmoor;village;54;-3',
      'Fenmoor;town;54;-3',
    ].join('\n')
    const read = readPlaces(text)
    expect(read.places.map(keyOf)).toEqual(['village\nFenmoor', 'town\nFenmoor'])
    expect(read.complaints.map(one => `${one.line} ${one.field} ${one.reason}`)).toEqual([
      '3 name missing',
      '3 kind not-listed',
      '3 latitude not-number',
      '4 longitude too-big',
      '5 name csv-twice',
    ])
  })

  it('needs its heads', () => {
    expect(readPlaces('place,latitude\nx,54').complaints).toEqual([
      { line: 1, field: 'name', reason: 'csv-head-missing' },
      { line: 1, field: 'kind', reason: 'csv-head-missing' },
      { line: 1, field: 'longitude', reason: 'csv-head-missing' },
    ])
    expect(readPlaces('').complaints).toEqual([{ line: 1, field: '', reason: 'missing' }])
  })
})
