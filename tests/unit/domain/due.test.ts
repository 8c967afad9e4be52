import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  DUE_HOURS,
  type DueItem,
  dueAbout,
  dueItem,
  inOrder,
  isHers,
  passesWithLine,
  splitDue,
} from '#lib/domain/due.ts'

const NOW = new Date('2026-10-25T00:30Z')
const minutes = (n: number) => new Date(NOW.getTime() + n * 60_000)

function backOf(id: number, at: Date, owner: Partial<DueItem> = {}): DueItem {
  const about = dueAbout.parse({ kind: 'call-back', callId: id, what: 'x', animal: '', where: '' })
  const nobody = { ownerId: null, owner: null, isOwnerThere: false }
  return { key: `call-back:${id}`, role: 'coordinator', at, isDay: false, about, ...nobody, ...owner }
}
const MARITS = { ownerId: 1, owner: 'Marit', isOwnerThere: true }
const ODOS = { ownerId: 3, owner: 'Odo', isOwnerThere: true }
const LEAVERS = { ownerId: 9, owner: 'Gone', isOwnerThere: false }

describe('what is owed', () => {
  it('is read as the database gives it, with what is not said left at its least', () => {
    const row = {
      id: 4,
      at: '2026-10-25T00:30:00Z',
      ownerId: null,
      owner: null,
      isOwnerThere: null,
      about: { kind: 'count', centreId: 2, centre: 'South', countedAt: null },
    }
    expect(dueItem('carer', row)).toMatchObject({
      key: 'count:4',
      at: NOW,
      isDay: false,
      isOwnerThere: false,
    })
    expect(() => dueItem('carer', { ...row, about: { kind: 'unheard of' } })).toThrow()
  })

  it('comes by instant, whatever the clock of the zone did, and nothing is dropped', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -600, max: 600 })), offsets => {
        const items = offsets.map((n, id) => backOf(id, minutes(n)))
        const sorted = inOrder(items)
        expect(sorted.map(({ key }) => key).sort()).toEqual(items.map(({ key }) => key).sort())
        for (const [i, { at }] of sorted.entries()) {
          expect(at.getTime()).toBeGreaterThanOrEqual(sorted[i - 1]?.at.getTime() ?? Number.NEGATIVE_INFINITY)
        }
      }),
    )
  })

  it('of one instant puts the line first, then who waits on the phone, then by number', () => {
    const line: DueItem = {
      ...backOf(1, NOW),
      key: 'line:1',
      about: { kind: 'line', step: 'hand-over', holder: 'Marit' },
    }
    const count: DueItem = {
      ...backOf(1, NOW),
      key: 'count:1',
      about: { kind: 'count', centreId: 1, centre: 'North', countedAt: null },
    }
    const sorted = inOrder([count, backOf(10, NOW), backOf(9, NOW), line])
    expect(sorted.map(({ key }) => key)).toEqual(['line:1', 'call-back:9', 'call-back:10', 'count:1'])
  })

  it('within the next hours is due; the rest comes later', () => {
    const items = [-60, 0, DUE_HOURS * 60, DUE_HOURS * 60 + 1].map((n, id) => backOf(id, minutes(n)))
    const { due, later } = splitDue(items, NOW)
    expect([due.length, later.map(({ key }) => key)]).toEqual([3, ['call-back:3']])
  })
})

describe('whose it is', () => {
  it('its owner’s, and without one the holder’s', () => {
    const line = { holderId: 2 }
    expect(isHers(backOf(1, NOW, MARITS), 1, line)).toBe(true)
    expect(isHers(backOf(1, NOW, MARITS), 2, line)).toBe(false)
    expect(isHers(backOf(1, NOW), 2, line)).toBe(true)
    expect(isHers(backOf(1, NOW), 1, line)).toBe(false)
  })

  it('the holder’s when the owner has left, and everybody’s while nobody holds the line', () => {
    expect(isHers(backOf(1, NOW, LEAVERS), 2, { holderId: 2 })).toBe(true)
    expect(isHers(backOf(1, NOW, LEAVERS), 1, { holderId: null })).toBe(true)
    expect(isHers(backOf(1, NOW, ODOS), 1, { holderId: null })).toBe(false)
  })

  it('passes with the line unless somebody else promised it and is still there', () => {
    expect([MARITS, {}, LEAVERS, ODOS].map(owner => passesWithLine(backOf(1, NOW, owner), 1))).toEqual([
      true,
      true,
      true,
      false,
    ])
  })

  it('of every item: the next holder owes what passed, nobody owes a thing twice', () => {
    const owners = fc.constantFrom({}, MARITS, ODOS, LEAVERS)
    fc.assert(
      fc.property(fc.array(owners), fc.constantFrom(1, 2), (given, from) => {
        const items = given.map((owner, id) => backOf(id, NOW, owner))
        const next = 4
        const passed = items.filter(item => passesWithLine(item, from))
        const moved = items.map(item =>
          item.ownerId === from ? { ...item, ownerId: next, owner: 'Next' } : item,
        )
        const hers = moved.filter(item => isHers(item, next, { holderId: next }))
        expect(hers.map(({ key }) => key)).toEqual(passed.map(({ key }) => key))
      }),
    )
  })
})
