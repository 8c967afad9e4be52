import fc from 'fast-check'
import { expect, it } from 'vitest'
import { hundredthsThatAddUp } from '#app/_ui/cost/rounding.ts'

it('shows terms that add up to the total shown, each within a hundredth of itself', () => {
  const term = fc.double({ min: -50, max: 300, noNaN: true })
  fc.assert(
    fc.property(fc.array(term, { minLength: 1, maxLength: 8 }), values => {
      const { terms, total } = hundredthsThatAddUp(values)
      expect(terms.reduce((sum, one) => sum + one, 0)).toBe(total)
      terms.forEach((one, i) => {
        expect(Math.abs(one - 100 * values[i]!)).toBeLessThanOrEqual(1 + 1e-9)
      })
    }),
  )
})

it('rounds three thirds of one to one', () => {
  expect(hundredthsThatAddUp([1 / 3, 1 / 3, 1 / 3])).toEqual({ terms: [34, 33, 33], total: 100 })
})
