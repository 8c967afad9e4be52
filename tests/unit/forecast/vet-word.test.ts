import fc from 'fast-check'
import { expect, test } from 'vitest'
import { VET_WEIGHT } from '#lib/domain/vet-word.ts'
import type { Hazards } from '#lib/forecast/hazards.ts'
import { lawOfHazards } from '#lib/forecast/hazards.ts'
import { heeded, medianLeft } from '#lib/forecast/vet-word.ts'
import { evidenceOfPlan } from '#lib/learn/evidence.ts'
import { meanHazards } from '#lib/learn/hazards.ts'
import { estimate, length, OVERWINTERING } from '../../support/forecasting.ts'

const hazards = meanHazards(evidenceOfPlan(estimate(), 200))
const constant = (chance: number): Hazards => ({ ...hazards, passes: new Float64Array(200).fill(chance) })

test('the median moves to the vet wholly, not at all, or between, on the log scale', () => {
  const age = 9
  const before = medianLeft(hazards, age)
  const after = (weight: number) => medianLeft(heeded(hazards, { age, inDays: 14 }, weight), age)
  expect(after(1)).toBeCloseTo(14, 8)
  expect(after(0)).toBeCloseTo(before, 8)
  expect(after(0.5)).toBeCloseTo(Math.sqrt(14 * before), 2)
  expect(medianLeft(heeded(hazards, { age, inDays: 14 }), age)).toBeCloseTo(
    14 ** VET_WEIGHT * before ** (1 - VET_WEIGHT),
    2,
  )
})

// Of a constant hazard h the stretched one is 1-(1-h)^(1/stretch), in closed form.
test('a constant chance becomes another constant chance', () => {
  const median = Math.LN2 / -Math.log(0.9)
  expect(medianLeft(constant(0.1), 3)).toBeCloseTo(median, 10)
  const { passes } = heeded(constant(0.1), { age: 3, inDays: 20 }, 1)
  for (let k = 3; k < 200; k += 20) expect(passes[k]).toBeCloseTo(1 - 0.9 ** (median / 20), 12)
  expect(passes[2]).toBe(0.1)
})

test('what went before stays, dying stays, and everything is still a chance', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 150 }),
      fc.double({ min: 0.1, max: 400, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (age, inDays, weight) => {
        const heard = heeded(hazards, { age, inDays }, weight)
        expect(heard.died).toBe(hazards.died)
        for (let k = 0; k < 200; k++) {
          if (k < age) expect(heard.passes[k]).toBe(hazards.passes[k])
          expect(heard.passes[k]! >= 0 && heard.passes[k]! <= 1).toBe(true)
        }
      },
    ),
    { numRuns: 60 },
  )
})

test('a date gate opens when it opens: said to be ready sooner, it is ready then', () => {
  const winter = meanHazards(evidenceOfPlan(OVERWINTERING, 200))
  const opens = 90
  expect(medianLeft(heeded(winter, { age: 40, inDays: 70 }, 1, opens), 40, opens)).toBeCloseTo(70, 8)
  expect(medianLeft(heeded(winter, { age: 40, inDays: 7 }, 1, opens), 40, opens)).toBeCloseTo(50.5, 0)
  const law = lawOfHazards(
    heeded(winter, { age: 40, inDays: 7 }, 1, opens),
    { onward: 1, died: 0, euthanased: 0, left: 0 },
    opens,
  )
  for (let d = 0; d < opens; d++) expect(law.masses.onward[d]).toBe(0)
})

test('an animal past its horizon, and one whose stage must end today, can be spoken of', () => {
  expect(medianLeft(heeded(hazards, { age: 300, inDays: 5 }, 1), 300)).toBeGreaterThan(0)
  const sure = meanHazards(
    evidenceOfPlan(estimate({ ready: { kind: 'length', length: length(3, 3.0001) } }), 30),
  )
  expect(medianLeft(heeded(sure, { age: 2, inDays: 10 }, 1), 2)).toBeCloseTo(10, 6)
})

test('refuses no time and no weight', () => {
  expect(() => heeded(hazards, { age: 1, inDays: 0 })).toThrow('inDays needs a positive number, got 0')
  expect(() => heeded(hazards, { age: 1, inDays: 3 }, 1.5)).toThrow(
    'weight needs a number in [0, 1], got 1.5',
  )
})
