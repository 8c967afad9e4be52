import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { numbered, orderWord, stepped } from '#lib/domain/walking-order.ts'

const orders = fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 1, maxLength: 12 })

describe('one step', () => {
  it('earlier or later moves one, and its ends stay', () => {
    expect(stepped([1, 2, 3], 2, 'earlier')).toEqual([2, 1, 3])
    expect(stepped([1, 2, 3], 2, 'later')).toEqual([1, 3, 2])
    expect(stepped([1, 2, 3], 1, 'earlier')).toEqual([1, 2, 3])
    expect(stepped([1, 2, 3], 3, 'later')).toEqual([1, 2, 3])
    expect(stepped([1, 2, 3], 9, 'later')).toEqual([1, 2, 3])
  })

  it('keeps the members, and the way back undoes it', () => {
    fc.assert(
      fc.property(orders, fc.nat(), (order, nth) => {
        const id = order[nth % order.length]!
        const later = stepped(order, id, 'later')
        expect([...later].sort()).toEqual([...order].sort())
        if (order.at(-1) !== id) expect(stepped(later, id, 'earlier')).toEqual(order)
      }),
    )
  })
})

describe('an order', () => {
  it('is numbered upwards and written as one word', () => {
    expect(numbered([7, 3])).toEqual([
      { id: 7, walkingOrder: 10 },
      { id: 3, walkingOrder: 20 },
    ])
    expect(orderWord('room', [7, 3])).toBe('room:7-3')
    expect(orderWord('enclosure', [7, 3])).not.toBe(orderWord('room', [7, 3]))
  })
})
