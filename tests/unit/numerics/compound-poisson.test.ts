import fc from 'fast-check'
import { expect, test } from 'vitest'
import { compoundPoisson } from '#lib/numerics/compound-poisson.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { newWork } from '#lib/numerics/work.ts'
import golden from '../../golden/counts.json' with { type: 'json' }

const short = (pmf: Float64Array, places: number) =>
  neumaierSum(pmf.map((p, n) => p * Math.max(0, n - places)))

test('Poisson 10: expected shortage over 10 and 15 places', () => {
  const pmf = compoundPoisson([10], newWork())
  expect(short(pmf, 10)).toBeCloseTo(1.2511003572, 10)
  expect(short(pmf, 15)).toBeCloseTo(0.1034786798, 10)
  expect(Math.abs(short(pmf, 15) / golden.poisson10Short15 - 1)).toBeLessThan(1e-9)
  expect(Math.abs(short(pmf, 10) / golden.poisson10Short10 - 1)).toBeLessThan(1e-9)
})

test('events of one, two and four animals', () => {
  const pmf = compoundPoisson([3, 1.5, 0, 0.5], newWork())
  expect(golden.compound.length).toBe(31)
  golden.compound.forEach((p, n) => {
    expect(Math.abs(pmf[n]! / p - 1)).toBeLessThan(1e-9)
  })
})

test('holds all its mass and its mean, for small, large and very large rates', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 60, noNaN: true }), { minLength: 1, maxLength: 6 }),
      rates => {
        const pmf = compoundPoisson(rates, newWork())
        expect(Math.abs(neumaierSum(pmf) - 1)).toBeLessThan(1e-12)
        const mean = rates.reduce((sum, rate, j) => sum + (j + 1) * rate, 0)
        expect(Math.abs(neumaierSum(pmf.map((p, n) => p * n)) - mean)).toBeLessThan(1e-10 * (1 + mean))
      },
    ),
  )
  expect(neumaierSum(compoundPoisson([2000, 10], newWork()))).toBeCloseTo(1, 11)
})

test('without events nobody comes', () => {
  expect(Array.from(compoundPoisson([], newWork()))).toEqual([1])
  expect(compoundPoisson([0, 0], newWork())[0]).toBe(1)
})

test('refuses a negative rate', () => {
  expect(() => compoundPoisson([1, -0.1], newWork())).toThrow('rate needs a number of at least 0, got -0.1')
})
