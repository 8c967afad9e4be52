import { describe, expect, it } from 'vitest'
import { namesOf, type Occupant } from '#lib/domain/occupant.ts'

const marram: Occupant = {
  casualtyId: 1,
  reference: 'Marram 13',
  company: 'kestrels',
  isAlone: false,
  placeNo: 2,
  isPromise: false,
  enclosure: 'Cage 6',
}
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
