import { describe, expect, it } from 'vitest'
import { companionsOf, isLone, type Young } from '#lib/domain/companion.ts'

const young = (id: number, change: Partial<Young> = {}): Young => ({
  id,
  reference: `Rush ${id}`,
  species: 'tawny-owl',
  company: 'owls',
  age: 'young',
  isAlone: false,
  isImprintRisk: true,
  centreId: id,
  enclosureId: id * 10,
  daysInCare: id,
  isApart: false,
  ...change,
})
const chick = young(1)
const room = { kmTo: (centreId: number) => centreId * 10, hasRoomFor: () => true }

describe('a lone chick', () => {
  it('is young, may imprint, and has no other of its kind and age with it', () => {
    expect(isLone(chick, [chick, young(2)])).toBe(true)
    expect(isLone(chick, [chick, young(2, { enclosureId: 10 })])).toBe(false)
    expect(isLone(chick, [chick, young(2, { enclosureId: 10, age: 'adult' })])).toBe(true)
    expect(isLone(young(1, { age: 'adult' }), [])).toBe(false)
    expect(isLone(young(1, { isImprintRisk: false }), [])).toBe(false)
  })

  it('in no enclosure yet is alone, whoever else is in none', () => {
    expect(isLone(young(1, { enclosureId: null }), [young(2, { enclosureId: null })])).toBe(true)
  })
})

describe('its companions', () => {
  it('are those of its own species first, then the nearest', () => {
    const others = [young(4), young(2, { species: 'little-owl' }), young(3)]
    expect(companionsOf(chick, others, room).map(({ animal }) => animal.id)).toEqual([3, 4, 2])
  })

  it('are none that are adult, kept alone, of another company, or apart for a disease', () => {
    const others = [
      young(2, { age: 'adult' }),
      young(3, { isAlone: true }),
      young(4, { company: 'kestrels' }),
      young(5, { isApart: true }),
    ]
    expect(companionsOf(chick, others, room)).toEqual([])
    expect(companionsOf(young(1, { isApart: true }), [young(2)], room)).toEqual([])
  })

  it('weigh moving in against moving out: by room, and never so that another is left alone', () => {
    const pair = [young(2, { enclosureId: 20 }), young(3, { enclosureId: 20, centreId: 2 })]
    const [first] = companionsOf(chick, pair, room)
    expect(first?.ways).toEqual([
      { kind: 'in', hasRoom: true, leavesOneAlone: true },
      { kind: 'out', hasRoom: true, leavesOneAlone: false },
    ])
    expect(first?.better).toBe('out')
    const onlyHere = { ...room, hasRoomFor: (_one: Young, beside: Young) => beside.id === chick.id }
    expect(companionsOf(chick, pair, onlyHere)[0]?.better).toBeNull()
    expect(companionsOf(chick, [young(2)], onlyHere)[0]?.better).toBe('in')
  })
})
