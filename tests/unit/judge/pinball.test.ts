import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { LEVELS, lossOf, pinballOf } from '#lib/judge/pinball.ts'
import golden from '../../golden/scores.json' with { type: 'json' }
import { anyPmf } from '../../support/pmf.ts'

describe('against exact fractions (tests/golden/scores.py)', () => {
  test.each(golden.scores)('$name', ({ pmf, rows }) => {
    for (const { count, pinball } of rows) {
      for (const [i, level] of LEVELS.entries())
        expect(Math.abs(pinballOf(pmf, count, level) - pinball[i]!)).toBeLessThan(1e-12 * (1 + count))
    }
  })
})

test('the quantile loses least, of all whole numbers, where counts come as the forecast says', () => {
  fc.assert(
    fc.property(anyPmf, fc.constantFrom(...LEVELS), fc.nat(45), (pmf, level, said) => {
      const mean = (loss: (count: number) => number) =>
        pmf.reduce((sum, p, count) => sum + p * loss(count), 0)
      expect(mean(count => pinballOf(pmf, count, level))).toBeLessThanOrEqual(
        mean(count => lossOf(said, count, level)) + 1e-11,
      )
    }),
  )
})

test('at a half it is half the distance', () => {
  expect(lossOf(3, 8, 0.5)).toBe(2.5)
  expect(lossOf(8, 3, 0.5)).toBe(2.5)
})
