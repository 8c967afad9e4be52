import fc from 'fast-check'
import { expect, test } from 'vitest'
import { EXITS } from '#lib/domain/housing.ts'
import { gateDelay, gateDelayOf, stageLaw } from '#lib/forecast/stage-law.ts'
import { addEvidence, evidenceOfLaw, evidenceOfPlan, noEvidence } from '#lib/learn/evidence.ts'
import { meanLaw } from '#lib/learn/hazards.ts'
import { estimate, length, OVERWINTERING, TODAY } from '../../support/forecasting.ts'

test('evidence of a plan alone gives the plan back, to the last digits', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.5, max: 60, noNaN: true }),
      fc.double({ min: 1.2, max: 5, noNaN: true }),
      (median, spread) => {
        const plan = estimate({ ready: { kind: 'length', length: length(median, median * spread) } })
        const asked = stageLaw(plan, 0, 150)
        const made = meanLaw(evidenceOfPlan(plan, 150))
        for (const exit of EXITS) {
          for (let d = 0; d < 150; d += 7)
            expect(made.masses[exit][d]).toBeCloseTo(asked.masses[exit][d]!, 12)
          expect(made.tails[exit]).toBeCloseTo(asked.tails[exit], 12)
        }
      },
    ),
  )
})

test('a booked check is no part of what is learned', () => {
  expect(evidenceOfPlan(estimate({ leastDays: 9 }), 30)).toEqual(evidenceOfPlan(estimate(), 30))
})

test('at a date gate the plan is met exactly until it opens, and within a hundredth after it', () => {
  const opens = gateDelayOf(OVERWINTERING, TODAY)
  expect(opens).toBe(gateDelay(OVERWINTERING.ready as never, TODAY))
  expect(gateDelayOf(estimate(), TODAY)).toBe(0)
  const made = meanLaw(evidenceOfPlan(OVERWINTERING, 400), opens)
  const asked = stageLaw(
    { ...OVERWINTERING, shares: { onward: 0.83, died: 0.1, euthanased: 0.07, left: 0 } },
    TODAY,
    400,
  )
  for (let d = 0; d < 400; d++) {
    expect(Math.abs(made.staying[d]! - asked.staying[d]!)).toBeLessThan(d < opens ? 1e-12 : 0.011)
  }
})

test('sums weigh each piece, and refuse unlike lengths', () => {
  const plan = evidenceOfPlan(estimate(), 20)
  const sum = addEvidence(
    [
      { weight: 2, of: plan },
      { weight: 3, of: plan },
    ],
    20,
  )
  for (let d = 0; d < 20; d++) expect(sum.kept[d]).toBeCloseTo(5 * plan.kept[d]!, 12)
  expect(() => addEvidence([{ weight: 1, of: noEvidence(3) }], 20)).toThrow('evidence needs 20 days, got 3')
})

test('rounding below nothing counts as nothing', () => {
  const law = stageLaw(estimate(), 0, 20)
  law.masses.died[3] = -1e-17
  expect(evidenceOfLaw(law).died[3]).toBe(0)
})
