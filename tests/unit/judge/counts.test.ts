import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cumulative, intervalOf, quantileOf, sureOf } from '#lib/judge/counts.ts'
import { anyPmf, poissonPmf } from '../../support/pmf.ts'

test('quantiles of a small distribution', () => {
  const pmf = [0.1, 0.4, 0, 0.5]
  expect(Array.from(cumulative(pmf))).toEqual([0.1, 0.5, 0.5, 1])
  expect([0.05, 0.1, 0.11, 0.5, 0.51, 0.99].map(share => quantileOf(pmf, share))).toEqual([0, 0, 1, 1, 3, 3])
})

test('a share that rounding misses by a hair is that share', () => {
  // 0.1 nine times sums to 0.8999999999999999.
  expect(quantileOf(new Array(10).fill(0.1), 0.9)).toBe(8)
})

test('a quantile is the least count that has the share at or below it', () => {
  fc.assert(
    fc.property(anyPmf, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (pmf, share) => {
      const k = quantileOf(pmf, share)
      const upTo = (n: number) => pmf.slice(0, n + 1).reduce((a, b) => a + b, 0)
      expect(upTo(k)).toBeGreaterThanOrEqual(share - 1e-11)
      if (k > 0) expect(upTo(k - 1)).toBeLessThan(share)
    }),
  )
})

test('the intervals of all counts lie end to end', () => {
  fc.assert(
    fc.property(anyPmf, pmf => {
      let at = 0
      for (const [count, p] of pmf.entries()) {
        const { from, width } = intervalOf(pmf, count)
        expect(Math.abs(from - at)).toBeLessThan(1e-14)
        expect(width).toBe(p)
        at += p
      }
    }),
  )
})

test('a count without a chance takes up nothing, at the place where it would be', () => {
  expect(intervalOf([0.5, 0, 0.5], 1)).toEqual({ from: 0.5, width: 0 })
  expect(intervalOf([0.5, 0, 0.5], 9)).toEqual({ from: 1, width: 0 })
})

test('sure of a count', () => {
  expect(Array.from(sureOf(3))).toEqual([0, 0, 0, 1])
})

test('what is no distribution or no count is refused', () => {
  expect(() => cumulative([])).toThrow('distribution needs a sum of 1, got 0')
  expect(() => cumulative([0.5, 0.4])).toThrow('distribution needs a sum of 1')
  expect(() => cumulative([1.5, -0.5])).toThrow('probability of 0 needs a number in [0, 1], got 1.5')
  expect(() => cumulative([Number.NaN, 1])).toThrow('probability of 0')
  expect(() => quantileOf([1], 1)).toThrow('share needs a number in (0, 1), got 1')
  expect(() => intervalOf([1], 0.5)).toThrow('count needs a whole number of at least 0, got 0.5')
  expect(() => sureOf(-1)).toThrow('count needs a whole number')
  const cut = poissonPmf(7, 60)
  expect(() => cumulative(cut)).not.toThrow()
})
