import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { PIT_BINS, pitOf, spreadOver } from '#lib/judge/pit.ts'
import golden from '../../golden/scores.json' with { type: 'json' }
import { anyPmf, poissonPmf } from '../../support/pmf.ts'

test('is flat, exactly, where counts come as the forecast says', () => {
  fc.assert(
    fc.property(anyPmf, fc.integer({ min: 1, max: 20 }), (pmf, bins) => {
      const bars = new Array<number>(bins).fill(0)
      for (const [count, p] of pmf.entries())
        for (const [bar, part] of pitOf(pmf, count, bins).entries()) bars[bar]! += p * part
      for (const bar of bars) expect(Math.abs(bar - 1 / bins)).toBeLessThan(1e-13)
    }),
  )
})

test('each count adds one, in parts of at least 0', () => {
  fc.assert(
    fc.property(anyPmf, fc.nat(45), (pmf, count) => {
      const bars = pitOf(pmf, count)
      expect(bars).toHaveLength(PIT_BINS)
      expect(Math.min(...bars)).toBeGreaterThanOrEqual(0)
      // A stretch hardly wider than the rounding of its place is known to few digits.
      const width = pmf[count] ?? 0
      expect(Math.abs(bars.reduce((a, b) => a + b, 0) - 1)).toBeLessThan(
        1e-14 + 4e-16 / Math.max(width, 4e-16),
      )
    }),
  )
})

describe('against exact fractions (tests/golden/scores.py)', () => {
  test.each(golden.scores)('$name', ({ pmf, rows }) => {
    for (const { count, pit } of rows) {
      const bars = pitOf(pmf, count)
      pit?.forEach((part, bar) => {
        expect(Math.abs(bars[bar]! - part), `${count}`).toBeLessThan(1e-9)
      })
    }
  })
})

test('leans where the forecast is too low, and to both ends where it is too sure', () => {
  const mean = (truth: readonly number[], pmf: readonly number[]) =>
    truth.reduce(
      (bars, p, count) => bars.map((bar, i) => bar + p * pitOf(pmf, count)[i]!),
      new Array<number>(PIT_BINS).fill(0),
    )
  const low = mean(poissonPmf(8), poissonPmf(6))
  expect(low[9]).toBeGreaterThan(2.5 * low[0]!)
  const sure = mean(
    poissonPmf(3).map((p, k) => (p + poissonPmf(9)[k]!) / 2),
    poissonPmf(6),
  )
  expect(Math.min(sure[0]!, sure[9]!)).toBeGreaterThan(1.5 * sure[5]!)
})

test('a point lies in the bar that holds it', () => {
  expect(spreadOver({ from: 0.3, width: 0 }, 10).indexOf(1)).toBe(3)
  expect(spreadOver({ from: 1, width: 0 }, 10).indexOf(1)).toBe(9)
  expect(spreadOver({ from: 0.25, width: 1e-20 }, 4)).toEqual([0, 1, 0, 0])
})
