import { describe, expect, test } from 'vitest'
import { weekdayOf } from '#lib/domain/day.ts'
import { evidenceOfPlan } from '#lib/learn/evidence.ts'
import { fitnessOf } from '#lib/learn/fitness.ts'
import type { RecordedStay } from '#lib/learn/stay.ts'
import { trialsOf } from '#lib/learn/trials.ts'
import { consistentTrials } from '#lib/learn/vague-dates.ts'
import { TODAY } from '../../support/forecasting.ts'
import { clinicError } from '../../support/judged-stages.ts'
import { ended, inCare } from '../../support/learning.ts'
import { planOf } from '../../support/stage-truth.ts'

/** A stay of this many midnights whose clinics fall on days 2, 5, 9, 12 and so on since it entered. */
const clinic = (stay: RecordedStay): RecordedStay => ({
  ...stay,
  gate: { weekdays: [weekdayOf(stay.enteredOn + 2), weekdayOf(stay.enteredOn + 5)] },
})
const earliest = (stay: RecordedStay) =>
  stay.end?.kind === 'exit' ? (stay.end.notBefore ?? stay.end.on) - stay.enteredOn : null

describe('an animal seen at clinics', () => {
  test('went on because it was fit on some day since the clinic before', () => {
    expect(earliest(fitnessOf(clinic(ended('onward', 9)), TODAY))).toBe(6)
    expect(earliest(fitnessOf(clinic(ended('onward', 2)), TODAY))).toBe(0)
    expect(earliest(fitnessOf(clinic(ended('onward', 12, { earliest: 8 })), TODAY))).toBe(6)
    expect(earliest(fitnessOf(clinic(ended('onward', 9, { from: 8 })), TODAY))).toBe(8)
  })

  test('went on between clinics: the record stands, and the clinic before still found it unfit', () => {
    expect(earliest(fitnessOf(clinic(ended('onward', 7)), TODAY))).toBe(6)
  })

  test('that ended otherwise, or is in care, was unfit up to the last clinic, and no more is known', () => {
    for (const stay of [ended('died', 8), inCare(8)]) {
      const { stayed, kept } = trialsOf([fitnessOf(clinic(stay), TODAY)], TODAY, 12)
      expect(Array.from(stayed)).toEqual([1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0])
      expect(kept[6]).toBe(1)
    }
    const never = trialsOf([fitnessOf(clinic(ended('died', 1)), TODAY)], TODAY, 12)
    expect(never.stayed.some(count => count > 0)).toBe(false)
  })
})

test('a booked check leaves open when before it the animal was fit', () => {
  const stay = ended('onward', 20)
  expect(earliest(fitnessOf({ ...stay, gate: { check: stay.enteredOn + 20 } }, TODAY))).toBe(0)
  expect(earliest(fitnessOf({ ...stay, gate: { check: stay.enteredOn + 14 } }, TODAY))).toBe(20)
})

test('a check that was done and not passed found it unfit that day', () => {
  const stay = ended('onward', 20)
  const day = (d: number) => stay.enteredOn + d
  expect(earliest(fitnessOf({ ...stay, gate: { check: day(20), tested: day(13) } }, TODAY))).toBe(14)
  const died = { ...ended('died', 17), gate: { check: day(20), tested: day(13) } }
  const { stayed } = trialsOf([fitnessOf(died, TODAY)], TODAY, 20)
  expect(stayed.reduce((a, b) => a + b)).toBe(14)
})

test('a date gate is no question of fitness: nothing before it is spread', () => {
  const stay = ended('onward', 20)
  const gate = { opens: stay.enteredOn + 18, weekdays: [weekdayOf(stay.enteredOn + 20)] }
  const known = fitnessOf({ ...stay, gate }, TODAY)
  expect(earliest(known)).toBe(18)
  expect(known.gate).toEqual({ opens: gate.opens })
  const alone = { ...stay, gate: { opens: gate.opens } }
  expect(fitnessOf(alone, TODAY)).toBe(alone)
  expect(fitnessOf(stay, TODAY)).toBe(stay)
})

test('one trial of going on a day up to the last test, whatever the end', () => {
  const prior = evidenceOfPlan(planOf({ early: 0.15, death: [3, 0.9], ready: [10, 0.5] }), 40)
  const counted = consistentTrials([fitnessOf(clinic(ended('onward', 9)), TODAY)], TODAY, prior, 20)
  const fit = counted.onward.slice(6, 10).reduce((a, b) => a + b)
  expect(fit).toBeCloseTo(1, 10)
  for (let d = 0; d < 6; d++) expect(counted.stayed[d]).toBeCloseTo(1, 10)
})

// Truth: fit after a lognormal time, gone on at the next of two clinics a week; a generator of its own.
test('two clinics a week do not make the plan look slow: stays and stretch are told right', () => {
  const { error, stretch } = clinicError(30, 12)
  expect(error.value).toBeLessThan(17)
  expect(Math.abs(Math.log(stretch))).toBeLessThan(0.12)
})
