import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { sureOf } from '#lib/judge/counts.ts'
import { crpsOf } from '#lib/judge/crps.ts'
import { lossOf } from '#lib/judge/pinball.ts'
import golden from '../../golden/scores.json' with { type: 'json' }
import { anyPmf, poissonPmf } from '../../support/pmf.ts'

// Engine, "Check values": computed in R or scipy.
test.each([
  ['Poisson 7.3', 7, 0.618291272643],
  ['negative binomial 1.5, mean 3', 5, 1.569919140083],
])('%s at %i', (name, count, value) => {
  const { pmf } = golden.scores.find(one => one.name === name)!
  expect(Math.abs(crpsOf(pmf, count) / value - 1)).toBeLessThan(1e-11)
})

describe('against exact fractions (tests/golden/scores.py)', () => {
  test.each(golden.scores)('$name', ({ pmf, rows }) => {
    for (const { count, crps } of rows) expect(Math.abs(crpsOf(pmf, count) / crps - 1)).toBeLessThan(1e-9)
  })
})

test('is E|X - y| - E|X - X*| / 2', () => {
  fc.assert(
    fc.property(anyPmf, fc.nat(60), (pmf, count) => {
      let away = 0
      let apart = 0
      pmf.forEach((p, i) => {
        away += p * Math.abs(i - count)
        pmf.forEach((q, j) => {
          apart += p * q * Math.abs(i - j)
        })
      })
      expect(Math.abs(crpsOf(pmf, count) - (away - apart / 2))).toBeLessThan(1e-12 * (1 + count))
    }),
  )
})

test('is twice the integral of the pinball loss over the levels', () => {
  fc.assert(
    fc.property(anyPmf, fc.nat(60), (pmf, count) => {
      let below = 0
      let sum = 0
      for (const [k, p] of pmf.entries()) {
        // The quantile is k for levels in (below, below + p], where the loss is linear in the level.
        sum += p * lossOf(k, count, below + p / 2)
        below += p
      }
      expect(Math.abs(crpsOf(pmf, count) - 2 * sum)).toBeLessThan(1e-12 * (1 + count))
    }),
  )
})

test('of a sure count it is the absolute error', () => {
  fc.assert(
    fc.property(fc.nat(50), fc.nat(50), (said, came) => {
      expect(crpsOf(sureOf(said), came)).toBe(Math.abs(said - came))
    }),
  )
})

test('is proper: no forecast beats on average what counts come by', () => {
  fc.assert(
    fc.property(anyPmf, anyPmf, (truth, other) => {
      const mean = (pmf: readonly number[]) =>
        truth.reduce((sum, p, count) => sum + p * crpsOf(pmf, count), 0)
      expect(mean(truth)).toBeLessThanOrEqual(mean(other) + 1e-12)
    }),
  )
})

test('does not change what it is given, and refuses what is no count', () => {
  const pmf = Object.freeze(poissonPmf(3))
  crpsOf(pmf, 2)
  expect(() => crpsOf(pmf, 2.5)).toThrow('count needs a whole number of at least 0, got 2.5')
})
