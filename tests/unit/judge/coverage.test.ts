import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { quantileOf } from '#lib/judge/counts.ts'
import { coverageUnder, fractionalCoverage } from '#lib/judge/coverage.ts'
import golden from '../../golden/scores.json' with { type: 'json' }
import { anyPmf, poissonPmf } from '../../support/pmf.ts'

test('a right forecast covers exactly 0.8 on average, whatever it says', () => {
  fc.assert(
    fc.property(anyPmf, pmf => {
      expect(Math.abs(coverageUnder(pmf, pmf) - 0.8)).toBeLessThan(1e-13)
    }),
  )
})

test('one that is too sure covers less, one that is too wide more', () => {
  const wide = Array.from({ length: 41 }, () => 1 / 41)
  const truth = poissonPmf(20, 80)
  const narrow = poissonPmf(5, 80).map((_, k, all) => all[k - 15] ?? 0)
  narrow[80] = narrow[80]! + 1 - narrow.reduce((a, b) => a + b, 0)
  expect(coverageUnder(truth, narrow)).toBeLessThan(0.6)
  expect(coverageUnder(truth, wide)).toBeGreaterThan(0.95)
})

test('and exactly the width of any other middle', () => {
  fc.assert(
    fc.property(anyPmf, fc.tuple(fc.nat(99), fc.nat(99)), (pmf, [a, b]) => {
      const middle = { low: Math.min(a, b) / 100, high: (Math.max(a, b) + 1) / 100 }
      const mean = coverageUnder(pmf, pmf, middle)
      expect(Math.abs(mean - (middle.high - middle.low))).toBeLessThan(1e-13)
    }),
  )
})

// Engine, section 8: a closed 80 % interval of counts covered 92 to 95 % at load 2.
test('the closed interval of quantiles covers more than it says', () => {
  const pmf = poissonPmf(2)
  const [low, high] = [quantileOf(pmf, 0.1), quantileOf(pmf, 0.9)]
  const closed = pmf.slice(low, high + 1).reduce((a, b) => a + b, 0)
  expect(closed).toBeGreaterThan(0.92)
})

describe('against exact fractions (tests/golden/scores.py)', () => {
  test.each(golden.scores)('$name', ({ pmf, rows }) => {
    for (const { count, coverage } of rows) {
      if (coverage !== null) expect(Math.abs(fractionalCoverage(pmf, count) - coverage)).toBeLessThan(1e-9)
    }
  })
})

test('a count without a chance counts as the limit of a small one', () => {
  for (const [pmf, count, inside] of [
    [[0.5, 0, 0.5], 1, 1],
    [[0.05, 0, 0.95], 1, 0],
    [[0.95, 0, 0.05], 1, 0],
    [[1], 4, 0],
  ] as const) {
    expect(fractionalCoverage(pmf, count)).toBe(inside)
    if (count < pmf.length) {
      const small = pmf.map((p, k) => (k === count ? 1e-12 : p * (1 - 1e-12)))
      expect(fractionalCoverage(small, count)).toBeCloseTo(inside, 1)
    }
  }
})

test('on the border of the middle a count without a chance is inside', () => {
  expect(fractionalCoverage([0.1, 0, 0.9], 1)).toBe(1)
})

test('chances of next to nothing keep their digits', () => {
  expect(fractionalCoverage([0.5, 1e-300, 0.5], 1)).toBe(1)
  expect(fractionalCoverage([0.95, 1e-300, 0.05], 1)).toBe(0)
})

test('a middle that is none is refused', () => {
  expect(() => fractionalCoverage([1], 0, { low: 0.9, high: 0.1 })).toThrow(
    'middle needs 0 <= low < high <= 1',
  )
})
