import { expect, test } from 'vitest'
import { chiSquaredAbove } from '#lib/numerics/chi-squared.ts'
import golden from '../../golden/scores.json' with { type: 'json' }

test('against scipy (tests/golden/scores.py), to the last digits of the tail', () => {
  expect(golden.chiSquaredAbove.length).toBeGreaterThan(40)
  for (const [x, degrees, above] of golden.chiSquaredAbove)
    expect(Math.abs(chiSquaredAbove(x!, degrees!) / above! - 1), `${x}, ${degrees}`).toBeLessThan(1e-12)
})

test('is 1 at 0, falls, and stays finite far out', () => {
  for (const degrees of [1, 2, 9, 200]) {
    expect(chiSquaredAbove(0, degrees)).toBe(1)
    let before = 1
    for (const x of [1e-300, 1e-3, 1, 9, 200, 1000, 1e6, Number.MAX_VALUE]) {
      const above = chiSquaredAbove(x, degrees)
      expect(above).toBeLessThanOrEqual(before)
      expect(above).toBeGreaterThanOrEqual(0)
      before = above
    }
  }
})

test('refuses degrees and numbers that are none', () => {
  expect(() => chiSquaredAbove(1, 0)).toThrow('degrees needs a whole number from 1 to 200, got 0')
  expect(() => chiSquaredAbove(1, 2.5)).toThrow('degrees')
  expect(() => chiSquaredAbove(-1, 2)).toThrow('x needs a number of at least 0, got -1')
  expect(() => chiSquaredAbove(Number.NaN, 2)).toThrow('x needs')
})
