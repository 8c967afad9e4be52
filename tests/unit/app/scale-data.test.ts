import { expect, it } from 'vitest'
import { barsOf } from '#app/(desk)/records/_parts/scale-data.ts'

it('draws shares to one height, with the height at which all would be right', () => {
  const { bars, right } = barsOf([0.1, 0.4, 0.5, 0], 0.5)
  expect(bars.match(/V[\d.]+H/g)).toEqual(['V80.00H', 'V20.00H', 'V0.00H', 'V100.00H'])
  expect(right).toBe(50)
})

it('leaves room above bars that are all about right', () => {
  const { bars, right } = barsOf(new Array(10).fill(0.1), 0.1)
  expect(bars).toContain('V50.00H')
  expect(right).toBe(50)
})
