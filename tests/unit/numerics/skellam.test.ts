import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { skellam } from '#lib/numerics/skellam.ts'
import { newWork } from '#lib/numerics/work.ts'

// tests/golden/skellam.py: scipy.stats.skellam.
const golden: { cases: { variance: number; pmf: number[] }[] } = JSON.parse(
  readFileSync(new URL('../../golden/skellam.json', import.meta.url), 'utf8'),
)

describe.each(golden.cases)('of variance $variance', ({ variance, pmf }) => {
  it('is as scipy has it', () => {
    const made = skellam(variance, newWork())
    for (const [s, p] of pmf.entries()) {
      expect(made.pmf[made.reach + s] ?? 0).toBeCloseTo(p, 11)
      expect(made.pmf[made.reach - s] ?? 0).toBeCloseTo(p, 11)
    }
  })
})

it('has mass 1, mean 0 and the variance asked for', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 200, noNaN: true }), variance => {
      const { pmf, reach } = skellam(variance, newWork())
      const moment = (power: number) => pmf.reduce((sum, p, i) => sum + p * (i - reach) ** power, 0)
      expect(moment(0)).toBeCloseTo(1, 12)
      expect(moment(1)).toBeCloseTo(0, 12)
      expect(Math.abs(moment(2) - variance)).toBeLessThan(1e-7)
    }),
  )
})

it('is always 0 without variance, and refuses one that is none', () => {
  expect(skellam(0, newWork())).toEqual({ pmf: Float64Array.of(1), reach: 0 })
  expect(() => skellam(-1, newWork())).toThrow(RangeError)
  expect(() => skellam(Number.POSITIVE_INFINITY, newWork())).toThrow(RangeError)
})
