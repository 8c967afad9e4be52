import { describe, expect, it } from 'vitest'
import { type Broken, brokenBy, fingerprintOf, joined, type Standing } from '#lib/domain/breaking.ts'

const marram: Standing = {
  kind: 'stay',
  casualtyId: 1,
  reference: 'Marram 13',
  enclosureId: 4,
  enclosure: 'Cage 4',
}
const rush: Standing = { ...marram, kind: 'hold', casualtyId: 2, reference: 'Rush 12' }

describe('what breaks', () => {
  it('is what stood before and does not stand after', () => {
    expect(brokenBy([marram, rush], [marram])).toEqual([rush])
    expect(brokenBy([marram], [{ ...marram, kind: 'hold' }])).toEqual([marram])
    expect(brokenBy([], [marram])).toEqual([])
  })

  it('names an animal once that loses its place and its housing', () => {
    const ill: Broken = { ...marram, kind: 'ill-housed' }
    const other: Broken = { ...ill, casualtyId: 3 }
    expect(joined([marram, rush], [ill, other])).toEqual([marram, rush, other])
  })
})

describe('a fingerprint', () => {
  it('is the same in whatever order, and another for anything more, less or else', () => {
    const both = fingerprintOf([marram, rush])
    expect(fingerprintOf([rush, marram])).toBe(both)
    for (const other of [
      [marram],
      [],
      [marram, { ...rush, enclosureId: 5 }],
      [marram, { ...rush, casualtyId: 3 }],
    ]) {
      expect(fingerprintOf(other)).not.toBe(both)
    }
  })
})
