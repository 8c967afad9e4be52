import fc from 'fast-check'
import { expect, test } from 'vitest'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'

test('keeps what rounding loses', () => {
  expect(neumaierSum([1, 1e100, 1, -1e100])).toBe(2)
  expect(neumaierSum(new Array<number>(10).fill(0.1))).toBe(1)
})

test('sums the first terms only when asked, and nothing to 0', () => {
  expect(neumaierSum([1, 2, 4], 2)).toBe(3)
  expect(neumaierSum([])).toBe(0)
})

test('is unchanged by order', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true })), terms => {
      const there = neumaierSum(terms)
      expect(Math.abs(neumaierSum(terms.toReversed()) - there)).toBeLessThanOrEqual(
        1e-15 * Math.abs(there) + 1e-22 * terms.length,
      )
    }),
  )
})
