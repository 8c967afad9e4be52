import { expect, test } from 'vitest'
import { dayOfDate, dayOfInstant } from '#lib/domain/day.ts'
import { daysOfStay, opensAfter } from '#lib/learn/stay.ts'
import { TODAY } from '../../support/forecasting.ts'
import { ended, inCare, unseenAfter } from '../../support/learning.ts'

test('days are midnights of the calendar, whatever the clocks did', () => {
  const zone = 'Europe/Berlin'
  const enteredOn = dayOfInstant(new Date('2026-03-28T12:00+01:00'), zone)
  const on = dayOfInstant(new Date('2026-03-30T11:30+02:00'), zone)
  expect(daysOfStay({ key: 'a', enteredOn, end: { kind: 'exit', exit: 'onward', on } }, TODAY).until).toBe(2)
})

test('an ended stay runs to the day it ended, others to the last day they survived', () => {
  expect(daysOfStay(ended('died', 3), TODAY)).toEqual({
    from: 0,
    until: 3,
    exit: { by: 'died', earliest: 3 },
  })
  expect(daysOfStay(inCare(2), TODAY)).toEqual({ from: 0, until: 1, exit: null })
  expect(daysOfStay(unseenAfter(3), TODAY)).toEqual({ from: 0, until: 2, exit: null })
  expect(daysOfStay(inCare(0), TODAY).until).toBe(-1)
})

test('an import is watched from its own day on, and an uncertain end lies there too', () => {
  expect(daysOfStay(ended('onward', 9, { from: 4, earliest: 2 }), TODAY)).toEqual({
    from: 4,
    until: 9,
    exit: { by: 'onward', earliest: 4 },
  })
})

test('what is entered of today or later is not known this morning', () => {
  const enteredOn = TODAY - 6
  const leaves = (on: number, notBefore = on) =>
    daysOfStay({ key: 'a', enteredOn, end: { kind: 'exit', exit: 'onward', on, notBefore } }, TODAY)
  expect(leaves(TODAY)).toEqual({ from: 0, until: 5, exit: null })
  expect(leaves(TODAY + 3)).toEqual({ from: 0, until: 5, exit: null })
  expect(leaves(TODAY, TODAY - 2)).toEqual({ from: 0, until: 3, exit: null })
  expect(leaves(TODAY - 1).exit).not.toBeNull()
})

test('refuses an end before the entry or before it was watched, and dates in the wrong order', () => {
  expect(() => daysOfStay(ended('died', -1), TODAY)).toThrow('needs an end on or after')
  expect(() => daysOfStay(ended('died', 3, { from: 4 }), TODAY)).toThrow('needs an end on or after')
  expect(() => daysOfStay(ended('died', 3, { earliest: 4 }), TODAY)).toThrow('needs notBefore up to')
})

test('a date gate counts from its opening, or from entry where it stood open', () => {
  const entry = dayOfDate('2026-11-01')
  const opens = (date?: string) =>
    opensAfter({
      key: 'a',
      enteredOn: entry,
      end: null,
      gate: date === undefined ? {} : { opens: dayOfDate(date) },
    })
  expect(opens('2026-11-11')).toBe(10)
  expect(opens('2026-10-01')).toBe(0)
  expect(opens()).toBe(0)
})
