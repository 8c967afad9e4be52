import fc from 'fast-check'
import { expect, test } from 'vitest'
import { weekdayOf } from '#lib/domain/day.ts'
import { EXITS } from '#lib/domain/housing.ts'
import { meanHazards } from '#lib/learn/hazards.ts'
import type { RecordedStay } from '#lib/learn/stay.ts'
import { couldPass, exitDays, trialsOf } from '#lib/learn/trials.ts'
import { TODAY } from '../../support/forecasting.ts'
import { ended, inCare, unseenAfter } from '../../support/learning.ts'

const list = (array: Float64Array) => Array.from(array)

test('the six animals of the worked example', () => {
  const stays = [
    ended('died', 0),
    ended('died', 1),
    ended('onward', 2),
    ended('onward', 3, { from: 1 }),
    inCare(2),
    unseenAfter(3),
  ]
  const { died, kept, onward, stayed, left, euthanased } = trialsOf(stays, TODAY, 5)
  expect(list(died)).toEqual([1, 1, 0, 0, 0])
  expect(list(onward)).toEqual([0, 0, 1, 1, 0])
  // Trials 5 5 3 1 0 less who died.
  expect(list(kept)).toEqual([4, 4, 3, 1, 0])
  expect(list(stayed)).toEqual([4, 4, 2, 0, 0])
  expect(list(left)).toEqual(list(euthanased))
})

test('before a booked check there is no trial of going on, and always one of dying', () => {
  const stay = ended('onward', 4)
  const gated: RecordedStay = { ...stay, gate: { check: stay.enteredOn + 3 } }
  const counted = trialsOf([gated, { ...ended('died', 2), gate: { check: stay.enteredOn + 9 } }], TODAY, 6)
  expect(list(counted.stayed)).toEqual([0, 0, 0, 1, 0, 0])
  expect(list(counted.onward)).toEqual([0, 0, 0, 0, 1, 0])
  expect(list(counted.kept)).toEqual([2, 2, 1, 1, 1, 0])
  expect(list(counted.died)).toEqual([0, 0, 1, 0, 0, 0])
})

test('a clinic on Tuesdays and Fridays has trials on those days only', () => {
  const stay: RecordedStay = { ...ended('onward', 13), gate: { weekdays: [2, 5] } }
  const days = [...Array(14).keys()].filter(d => couldPass(stay, d))
  expect(days).toHaveLength(4)
  expect(days.map(d => weekdayOf(stay.enteredOn + d)).every(day => day === 2 || day === 5)).toBe(true)
  const counted = trialsOf([stay], TODAY, 14)
  expect(counted.stayed.reduce((a, b) => a + b)).toBe(4 - Number(days.includes(13)))
  expect(counted.onward[13]).toBe(1)
})

test('behind a date gate going on is counted from the opening, dying from the entry', () => {
  const stay = ended('onward', 8)
  const counted = trialsOf([{ ...stay, gate: { opens: stay.enteredOn + 6 } }], TODAY, 10)
  expect(list(counted.kept)).toEqual([1, 1, 1, 1, 1, 1, 1, 1, 1, 0])
  expect(list(counted.stayed).slice(0, 4)).toEqual([1, 1, 0, 0])
  expect(counted.onward[2]).toBe(1)
  const early = trialsOf([{ ...stay, gate: { opens: stay.enteredOn + 9 } }], TODAY, 10)
  expect(early.onward[0]).toBe(1)
})

test('an end between two dates is spread evenly, and over the days when it could be', () => {
  const even = trialsOf([ended('died', 4, { earliest: 1 })], TODAY, 6)
  expect(list(even.died)).toEqual([0, 0.25, 0.25, 0.25, 0.25, 0])
  expect(list(even.kept)).toEqual([1, 0.75, 0.5, 0.25, 0, 0])
  const stay = ended('onward', 4, { earliest: 1 })
  expect(exitDays({ ...stay, gate: { check: stay.enteredOn + 3 } }, TODAY)?.chances).toEqual([0, 0, 0.5, 0.5])
  expect(exitDays({ ...stay, gate: { check: stay.enteredOn + 9 } }, TODAY)?.chances).toEqual([
    0.25, 0.25, 0.25, 0.25,
  ])
})

test('with hazards, an uncertain day weighs as the chance to reach it and to end on it', () => {
  const hazards = { ...meanHazards(trialsOf([], TODAY, 5)), passes: new Float64Array([0, 0.5, 0.25, 0.4, 1]) }
  const chances = exitDays(ended('onward', 3, { earliest: 1 }), TODAY, hazards)?.chances ?? []
  const weights = [0.5, 0.5 * 0.25, 0.5 * 0.75 * 0.4]
  const total = weights.reduce((a, b) => a + b)
  for (const [i, weight] of weights.entries()) expect(chances[i]).toBeCloseTo(weight / total, 14)
})

test('each stay is one animal: it is followed on every watched day and ends once at most', () => {
  const someStay = fc.record({
    exit: fc.constantFrom(...EXITS),
    from: fc.integer({ min: 0, max: 6 }),
    earliest: fc.integer({ min: 0, max: 6 }),
    more: fc.integer({ min: 0, max: 9 }),
    check: fc.integer({ min: 0, max: 20 }),
  })
  fc.assert(
    fc.property(someStay, ({ exit, from, earliest, more, check }) => {
      const first = Math.max(from, earliest)
      const stay = ended(exit, first + more, { from, earliest })
      const counted = trialsOf([{ ...stay, gate: { check: stay.enteredOn + check } }], TODAY, 40)
      const sum = (array: Float64Array) => array.reduce((a, b) => a + b)
      const exits = EXITS.map(one => sum(counted[one]))
      expect(exits.reduce((a, b) => a + b)).toBeCloseTo(1, 12)
      expect(exits[EXITS.indexOf(exit)]).toBeCloseTo(1, 12)
      for (let d = 0; d < first; d++) {
        const seen = counted.kept[d]! + counted.died[d]! + counted.euthanased[d]! + counted.left[d]!
        expect(seen).toBeCloseTo(d < from ? 0 : 1, 12)
        expect(counted.stayed[d]).toBeLessThanOrEqual(counted.kept[d]!)
      }
    }),
  )
})
