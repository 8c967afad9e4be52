import fc from 'fast-check'
import { expect, test } from 'vitest'
import { chainShortage } from '#lib/forecast/nested-classes.ts'

const CHANCES = [
  [0.5, 0.2, 0.1],
  [0.6, 0.1, 0.1],
  [0.1, 0.7, 0.1],
  [0, 0.3, 0.6],
  [0.2, 0.5, 0.2],
  [0.4, 0.4, 0],
]

test('six animals of uncertain class against 1, 2 and 1 enclosures', () => {
  const { shortProbability, expectedShort, priceByClass } = chainShortage(CHANCES, [1, 2, 1])
  expect(shortProbability).toBeCloseTo(0.835444, 12)
  expect(expectedShort).toBeCloseTo(1.272046, 12)
  expect(priceByClass[0]).toBeCloseTo(0.844084, 12)
  expect(priceByClass[1]).toBeCloseTo(0.922214, 12)
  expect(priceByClass[2]).toBeCloseTo(0.983882, 12)
})

test('equals the enumeration of who needs what, by the definition of the deficiency', () => {
  const row = fc.array(fc.double({ min: 0, max: 0.33, noNaN: true }), { minLength: 3, maxLength: 3 })
  const spaces = fc.array(fc.nat(2), { minLength: 3, maxLength: 3 })
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 4 }), spaces, (chances, capacities) => {
      let short = 0
      let expected = 0
      const walk = (animal: number, mass: number, counts: readonly number[]) => {
        if (animal === chances.length) {
          let worst = 0
          for (let s = 0; s < 3; s++) {
            const sum = (xs: readonly number[]) => xs.slice(s).reduce((a, b) => a + b, 0)
            worst = Math.max(worst, sum(counts) - sum(capacities))
          }
          if (worst > 0) short += mass
          expected += mass * worst
          return
        }
        const needs = chances[animal]!
        walk(animal + 1, mass * (1 - needs.reduce((a, b) => a + b, 0)), counts)
        for (const [s, p] of needs.entries()) walk(animal + 1, mass * p, counts.with(s, counts[s]! + 1))
      }
      walk(0, 1, [0, 0, 0])
      const found = chainShortage(chances, capacities)
      expect(found.shortProbability).toBeCloseTo(short, 12)
      expect(found.expectedShort).toBeCloseTo(expected, 12)
    }),
    { numRuns: 40 },
  )
})

test('refuses more animals than the joint count can hold', () => {
  expect(() =>
    chainShortage(
      Array.from({ length: 200 }, () => [0.5]),
      [1, 1, 1],
    ),
  ).toThrow('joint states')
})
