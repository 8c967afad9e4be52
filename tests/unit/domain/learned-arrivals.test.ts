import { expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { findExpected, type LearnedRates } from '#lib/domain/learned-arrivals.ts'

const rates: LearnedRates = {
  group: 'owls',
  run: '3',
  from: dayOfDate('2026-05-30'),
  eventsPerDay: Float64Array.from([2, 3, 4]),
  sizes: { young: [0.5, 0.5], grown: [1] },
  shares: {
    winter: [],
    spring: [{ centreId: 1, share: 1 }],
    summer: [
      { centreId: 1, share: 0.25 },
      { centreId: 2, share: 0.75 },
    ],
    autumn: [],
  },
}

test("a day's arrivals go to centres by its season", () => {
  expect(findExpected(rates, 1, dayOfDate('2026-05-31'))).toBe(3)
  expect(findExpected(rates, 2, dayOfDate('2026-05-31'))).toBe(0)
  expect(findExpected(rates, 1, dayOfDate('2026-06-01'))).toBe(1)
  expect(findExpected(rates, 2, dayOfDate('2026-06-01'))).toBe(3)
})

test('a day that was not learned is not known', () => {
  expect(findExpected(rates, 1, dayOfDate('2026-05-29'))).toBeUndefined()
  expect(findExpected(rates, 1, dayOfDate('2026-06-02'))).toBeUndefined()
})
