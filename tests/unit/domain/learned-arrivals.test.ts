import { expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { type LearnedRates, plansIn, shareOfCentre, shareOfPlan } from '#lib/domain/learned-arrivals.ts'

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
  mix: {
    winter: [{ planIds: [], share: 1 }],
    spring: [
      { planIds: [], share: 0.4 },
      { planIds: ['a', 'b'], share: 0.6, young: 0.9 },
    ],
    summer: [{ planIds: ['a', 'b'], share: 1, young: 0.9 }],
    autumn: [],
  },
}

test("a group's arrivals go to centres by the season of the day", () => {
  expect(shareOfCentre(rates, 1, dayOfDate('2026-05-31'))).toBe(1)
  expect(shareOfCentre(rates, 2, dayOfDate('2026-05-31'))).toBe(0)
  expect(shareOfCentre(rates, 1, dayOfDate('2026-06-01'))).toBe(0.25)
  expect(shareOfCentre(rates, 2, dayOfDate('2026-06-01'))).toBe(0.75)
})

test("a group's animals go by plans in the shares of the season of the day", () => {
  expect(plansIn(rates)).toEqual([{ planIds: [] }, { planIds: ['a', 'b'], young: 0.9 }])
  expect(shareOfPlan(rates, ['a', 'b'], dayOfDate('2026-05-31'))).toBe(0.6)
  expect(shareOfPlan(rates, [], dayOfDate('2026-05-31'))).toBe(0.4)
  expect(shareOfPlan(rates, [], dayOfDate('2026-06-01'))).toBe(0)
})
