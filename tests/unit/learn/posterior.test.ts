import { describe, expect, test } from 'vitest'
import type { Exit } from '#lib/domain/housing.ts'
import { EXITS } from '#lib/domain/housing.ts'
import { addEvidence, evidenceOfLaw, evidenceOfPlan, noEvidence } from '#lib/learn/evidence.ts'
import { meanHazards, meanLaw } from '#lib/learn/hazards.ts'
import { leanOnPrior, posteriorOf } from '#lib/learn/posterior.ts'
import type { RecordedStay } from '#lib/learn/stay.ts'
import { trialsOf } from '#lib/learn/trials.ts'
import golden from '../../golden/learning.json' with { type: 'json' }
import { estimate, length, TODAY } from '../../support/forecasting.ts'
import { ended, inCare, smallLaw, unseenAfter } from '../../support/learning.ts'

const SIX = [
  ended('died', 0),
  ended('died', 1),
  ended('onward', 2),
  ended('onward', 3, { from: 1 }),
  inCare(2),
  unseenAfter(3),
]
const SMALL = smallLaw([0, 0.05, 0.15, 0.25, 0.15], [0.1, 0.1, 0.05, 0.03, 0.02])

/** A fraction written as text. */
const value = (text: string) => {
  const [over = 0, under = 1] = text.split('/').map(Number)
  return over / under
}
const running = (masses: Float64Array, d: number) => masses.slice(0, d + 1).reduce((a, b) => a + b, 0)
const learned = (stays: readonly RecordedStay[], days: number, weight: number, plan = estimate()) =>
  posteriorOf(evidenceOfPlan(plan, days), weight, trialsOf(stays, TODAY, days))

describe('the worked example', () => {
  // Whole fractions, by hand in the engine's section 1 and again in tests/golden/learning.py.
  test('hazards, survival and incidences of all five days', () => {
    const records = trialsOf(SIX, TODAY, 5)
    const posterior = posteriorOf(evidenceOfLaw(SMALL), 2, records)
    const hazards = meanHazards(posterior)
    const law = meanLaw(posterior)
    golden.worked.forEach(([on, died, survival, cifOn, cifDied], d) => {
      expect((1 - hazards.died[d]!) * hazards.passes[d]!).toBeCloseTo(value(on!), 14)
      expect(hazards.died[d]).toBeCloseTo(value(died!), 14)
      expect(law.staying[d]).toBeCloseTo(value(survival!), 14)
      expect(running(law.masses.onward, d)).toBeCloseTo(value(cifOn!), 14)
      expect(running(law.masses.died, d)).toBeCloseTo(value(cifDied!), 14)
    })
    expect(law.staying[4]).toBeCloseTo(0.04396869859054733, 15)
  })

  test('without weight on the plan: 4/5, 16/25, 32/75, 0', () => {
    const { staying } = meanLaw(posteriorOf(evidenceOfLaw(SMALL), 0, trialsOf(SIX, TODAY, 5)))
    for (const [d, survival] of [4 / 5, 16 / 25, 32 / 75, 0].entries())
      expect(staying[d]).toBeCloseTo(survival, 15)
  })
})

describe('a weight towards nothing', () => {
  // Freireich et al. 1963, 6-MP arm; survival by scipy.stats.ecdf.
  test('is Kaplan-Meier', () => {
    const stays = golden.freireich.times.map(time =>
      time.endsWith('+') ? unseenAfter(Number.parseInt(time, 10) + 1) : ended('died', Number(time)),
    )
    for (const weight of [0, 1e-11]) {
      const { staying } = meanLaw(learned(stays, 40, weight))
      for (const [d, survival] of golden.freireich.survival) {
        expect(Math.abs(staying[d!]! / survival! - 1), `day ${d}`).toBeLessThan(1e-9)
      }
    }
  })

  // A product of transition matrices in fractions, by brute force (tests/golden/learning.py).
  test('is Aalen-Johansen, with late entry', () => {
    const stays = golden.causes.stays.map(([from, last, exit]) =>
      exit === null
        ? unseenAfter(Number(last) + 1, Number(from))
        : ended(exit as Exit, Number(last), { from: Number(from) }),
    )
    const law = meanLaw(learned(stays, 12, 0))
    golden.causes.rows.forEach((row, d) => {
      expect(law.staying[d]).toBeCloseTo(row[0]!, 13)
      golden.causes.columns.slice(1).forEach((exit, j) => {
        expect(running(law.masses[exit as Exit], d), `${exit} day ${d}`).toBeCloseTo(row[j + 1]!, 13)
      })
    })
  })
})

test('no record is the plan, whatever its weight', () => {
  const plan = meanLaw(evidenceOfPlan(estimate(), 100))
  for (const weight of [0.01, 1, 20, 1e6]) {
    const { staying, masses } = meanLaw(learned([], 100, weight))
    for (let d = 0; d < 100; d++) {
      expect(staying[d]).toBeCloseTo(plan.staying[d]!, 12)
      for (const exit of EXITS) expect(masses[exit][d]).toBeCloseTo(plan.masses[exit][d]!, 12)
    }
  }
})

// Of the kind of `channing` in R's boot: residents enter a home late, so on an early day one is at risk, and dies.
test('one animal at risk that ends does not end all that come after it', () => {
  const stays = [
    ended('died', 3, { from: 1 }),
    ...Array.from({ length: 30 }, (_, i) => ended('onward', 12 + (i % 9), { from: 5 })),
  ]
  expect(meanLaw(learned(stays, 60, 0)).staying[10]).toBe(0)
  const { staying } = meanLaw(learned(stays, 60, 20))
  expect(staying[3]).toBeGreaterThan(0.8)
  expect(staying[10]).toBeGreaterThan(0.6)
  for (let d = 1; d < 60; d++) expect(staying[d]).toBeGreaterThan(0)
})

// scipy.integrate over the simplex: shut trials know only whether it died (tests/golden/learning.py).
test('animals that could not go on teach of dying alone, as the full integral has it', () => {
  const [on, died, stay] = golden.gated.prior
  const day = (change: Partial<Record<'died' | 'kept' | 'onward' | 'stayed', number>>) => {
    const one = noEvidence(1)
    for (const [field, count] of Object.entries(change)) one[field as 'died'][0] = count
    return one
  }
  const posterior = addEvidence(
    [
      { weight: 1, of: day({ died: died!, kept: on! + stay!, onward: on!, stayed: stay! }) },
      { weight: 1, of: day({ died: 1 + 3, kept: 2 + 4 + 5, onward: 2, stayed: 4 }) },
    ],
    1,
  )
  const hazards = meanHazards(posterior)
  expect(hazards.died[0]).toBeCloseTo(golden.gated.died, 10)
  expect((1 - hazards.died[0]!) * hazards.passes[0]!).toBeCloseTo(golden.gated.on, 10)
})

test('a lean is all without records, c/(c+n) with n that were followed as the plan has it, and refuses no weight', () => {
  const plan = estimate({ ready: { kind: 'length', length: length(8, 14) } })
  const prior = evidenceOfPlan(plan, 80)
  expect(leanOnPrior(prior, 20, noEvidence(80))).toBeCloseTo(1, 14)
  expect(leanOnPrior(prior, 20, addEvidence([{ weight: 80, of: prior }], 80))).toBeCloseTo(0.2, 12)
  expect(() => posteriorOf(prior, -1, noEvidence(80))).toThrow('weight needs at least 0 animals, got -1')
})
