import { expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { expectedStarts, type StageOfStay } from '#lib/forecast/expected-starts.ts'
import { learnedOf } from '#tests/support/learned.ts'

const today = dayOfDate('2026-11-25')
const shares = { onward: 1, died: 0, euthanased: 0, left: 0 }
const often = { medianDays: 2, p90Days: 31 }
const stage = (no: number, medianDays: number, more: Partial<StageOfStay> = {}): StageOfStay => ({
  no,
  estimate: {
    stage: 'limited activity',
    ready: { kind: 'length', length: { medianDays, p90Days: medianDays * 2 } },
    shares,
    died: often,
    euthanased: often,
  },
  beganOn: null,
  ...more,
})

test('one usual time after another, from the day the stage it is in began', () => {
  const starts = expectedStarts([stage(1, 3, { beganOn: today - 1 }), stage(2, 14.4), stage(3, 7)], today)
  expect([...starts]).toEqual([
    [1, today - 1],
    [2, today + 2],
    [3, today + 16],
  ])
})

test('a stage that lasts longer than usual ends today, not yesterday', () => {
  const starts = expectedStarts([stage(1, 3, { beganOn: today - 20 }), stage(2, 14)], today)
  expect(starts.get(2)).toBe(today)
})

test('no sooner than the check that bars the way, nor than the season opens', () => {
  const barred = { ...stage(1, 3).estimate, leastDays: 10 }
  const winter = {
    ...stage(2, 3).estimate,
    ready: {
      kind: 'date gate',
      opens: '03-20',
      closes: '09-30',
      minDays: 0,
      lag: { medianDays: 5, p90Days: 9 },
    },
  } as const
  const starts = expectedStarts(
    [stage(1, 3, { estimate: barred, beganOn: today }), stage(2, 3, { estimate: winter }), stage(3, 1)],
    today,
  )
  expect(starts.get(2)).toBe(today + 10)
  expect(starts.get(3)).toBe(dayOfDate('2027-03-25'))
})

test('where records say how long a stage takes they are asked, not the plan', () => {
  const slow = learnedOf({ passes: [0, 0, 0, 0, 0.4, 0.4], died: [0.5] })
  const [one, two] = [stage(1, 3), stage(2, 14)]
  const learned = { ...one, estimate: { ...one.estimate, learned: slow } }
  // Of those who go on, four tenths on the fifth day and 0.24 on the sixth.
  expect(expectedStarts([learned, two], today)).toEqual(
    new Map([
      [1, today],
      [2, today + 5],
    ]),
  )
})
