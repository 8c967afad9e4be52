import fc from 'fast-check'
import { expect, test } from 'vitest'
import { EXITS, type Exit, newByExit } from '#lib/domain/housing.ts'
import { hazardsOfLaw, lawOfHazards, waitingFor } from '#lib/forecast/hazards.ts'
import { gateDelayOf, type StageLaw, stageLaw } from '#lib/forecast/stage-law.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { estimate, OVERWINTERING, TODAY } from '../../support/forecasting.ts'
import { hazardsOf, learnedOf } from '../../support/learned.ts'

const onlyOnward = newByExit(exit => (exit === 'onward' ? 1 : 0))

test('masses and tails sum to 1 whatever the chances of a day, the gate and the days asked for', () => {
  const chance = fc.double({ min: 0, max: 1, noNaN: true })
  const day = fc.tuple(chance, chance, chance, chance)
  const some = fc.record({
    chances: fc.array(day, { minLength: 1, maxLength: 30 }),
    opens: fc.integer({ min: 0, max: 40 }),
    days: fc.integer({ min: 1, max: 60 }),
    waits: fc.integer({ min: 0, max: 50 }),
  })
  fc.assert(
    fc.property(some, ({ chances, opens, days, waits }) => {
      const part = (at: 0 | 1 | 2) => chances.map(one => one[at] / Math.max(1, one[0] + one[1] + one[2]))
      const learned = learnedOf({
        died: part(0),
        euthanased: part(1),
        left: part(2),
        passes: chances.map(one => one[3]),
      })
      const beyond = { onward: 0.5, died: 0.2, euthanased: 0.2, left: 0.1 }
      const law = waitingFor(lawOfHazards(learned, beyond, opens, days), d => d >= waits)
      const all = EXITS.map(exit => neumaierSum(law.masses[exit]) + law.tails[exit])
      expect(Math.abs(neumaierSum(all) - 1)).toBeLessThan(1e-12)
      expect(law.staying[days - 1]).toBeCloseTo(neumaierSum(EXITS.map(exit => law.tails[exit])), 12)
      for (let d = 0; d < Math.min(days, Math.max(opens, waits)); d++) expect(law.masses.onward[d]).toBe(0)
    }),
  )
})

// By hand: of 1, 0.1 die and of the 0.9 left 0.5 go on; of 0.45, 0.2 die and of 0.36 a quarter goes on; of 0.27 then
// 1 - 0.8 * 0.75 end, as the rest does: onward.
test('two days by hand, and a third that keeps the chance of the second to end', () => {
  const learned = learnedOf({ died: [0.1, 0.2], passes: [0.5, 0.25] })
  const { masses, staying, tails } = lawOfHazards(learned, onlyOnward, 0, 3)
  expect(masses.died[0]).toBeCloseTo(0.1, 15)
  expect(masses.onward[0]).toBeCloseTo(0.45, 15)
  expect(masses.died[1]).toBeCloseTo(0.09, 15)
  expect(masses.onward[1]).toBeCloseTo(0.09, 15)
  expect(masses.died[2]).toBe(0)
  expect(masses.onward[2]).toBeCloseTo(0.27 * 0.4, 15)
  expect(staying[2]).toBeCloseTo(0.27 * 0.8 * 0.75, 15)
  expect(tails.onward).toBe(staying[2])
})

test('a day on which all pass ends the stage', () => {
  const law = lawOfHazards(learnedOf({ passes: [1, 1, 1] }), onlyOnward)
  expect(law.masses.onward[0]).toBe(1)
  expect(Array.from(law.staying)).toEqual([0, 0, 0])
})

test('who waits for a booked check goes on as the plan has it, and at a clinic on its next day', () => {
  const free = hazardsOf(stageLaw(estimate(), 0, 60))
  const law = lawOfHazards(free, free.beyond)
  const checked = waitingFor(law, d => d >= 9)
  const plan = stageLaw(estimate({ leastDays: 9 }), 0, 60)
  for (let d = 0; d < 60; d++) {
    expect(checked.masses.onward[d]).toBeCloseTo(plan.masses.onward[d]!, 12)
    expect(checked.staying[d]).toBeCloseTo(plan.staying[d]!, 12)
  }
  const weekly = waitingFor(law, d => d % 7 === 3)
  for (let d = 0; d < 60; d++) expect(weekly.masses.onward[d]! > 0).toBe(d % 7 === 3)
  expect(weekly.masses.onward[10]).toBeCloseTo(neumaierSum(law.masses.onward.slice(4, 11)), 14)
  const all = EXITS.map(exit => neumaierSum(weekly.masses[exit]) + weekly.tails[exit])
  expect(neumaierSum(all)).toBeCloseTo(1, 12)
})

const restOf = ({ masses, tails }: StageLaw, exit: Exit, from: number) =>
  tails[exit] + neumaierSum(masses[exit].subarray(from))

test('a law gives its hazards back, with a date gate too', () => {
  for (const [of, opens] of [
    [estimate(), 0],
    [OVERWINTERING, gateDelayOf(OVERWINTERING, TODAY)],
  ] as const) {
    const law = stageLaw(of, TODAY, 400)
    const { beyond, ...hazards } = hazardsOfLaw(law, opens)
    expect(hazards.days).toBe(400 - opens)
    const again = lawOfHazards(hazards, beyond, opens)
    for (const exit of EXITS) {
      for (let d = 0; d < hazards.days; d++)
        expect(again.masses[exit][d]).toBeCloseTo(law.masses[exit][d]!, 13)
    }
    for (const exit of EXITS) expect(again.tails[exit]).toBeCloseTo(restOf(law, exit, hazards.days), 13)
  }
})
