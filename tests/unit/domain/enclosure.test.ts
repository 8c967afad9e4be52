import { describe, expect, test } from 'vitest'
import { enclosure } from '#lib/domain/enclosure.ts'

const cage = {
  roomId: 1,
  name: 'Cage 6',
  housingType: 'hospital-cage',
  sizeRank: 3,
  widthM: 0.6,
  lengthM: 0.8,
  heightM: 0.6,
  features: ['heat'],
  turnaroundMin: 30,
  driesAfter: 'each',
  walkingOrder: 6,
  stocking: [{ company: 'kestrels', places: 1 }],
}

describe('an enclosure', () => {
  test('is read as it was written', () => {
    expect(enclosure.parse(cage)).toEqual(cage)
  })

  test.each([
    [{ sizeRank: 0 }],
    [{ sizeRank: 10 }],
    [{ widthM: 0 }],
    [{ turnaroundMin: -1 }],
    [{ features: [''] }],
    [{ housingType: 'shed' }],
    [{ stocking: [{ company: 'kestrels', places: 0 }] }],
    [{ stocking: [...cage.stocking, ...cage.stocking] }],
  ])('refuses %j', wrong => {
    expect(enclosure.safeParse({ ...cage, ...wrong }).success).toBe(false)
  })
})
