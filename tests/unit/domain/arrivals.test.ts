import { describe, expect, test } from 'vitest'
import { eventsOnDay, meanEventSize, yearArrivals } from '#lib/domain/arrivals.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import { ALL_SPECIES_SHAPE, EVEN_SHAPE } from '#lib/domain/season.ts'

const ducks = {
  centreId: 1,
  group: 'ducks',
  animalsPerYear: 365,
  monthShares: [...EVEN_SHAPE.shares],
  eventSizes: [0.5, 0, 0.5],
  mark: 'CP',
}

describe("a year's arrivals", () => {
  test('count animals and arrivals apart', () => {
    expect(meanEventSize(ducks.eventSizes)).toBe(2)
    // 365 animals, a twelfth in November's 30 days, two an arrival.
    expect(eventsOnDay(ducks, dayOfDate('2026-11-25'))).toBeCloseTo(365 / 12 / 30 / 2, 12)
  })

  // trade.md 3.1, derived from S22: 4,284 a year; summer 22.7 a day, winter 3.3.
  test('repeat the published animals a day by season', () => {
    const all = { animalsPerYear: 4284, monthShares: [...ALL_SPECIES_SHAPE.shares], eventSizes: [1] }
    const mean = (from: string, until: string) => {
      let sum = 0
      for (let day = dayOfDate(from); day < dayOfDate(until); day++) sum += eventsOnDay(all, day)
      return sum / (dayOfDate(until) - dayOfDate(from))
    }
    expect(mean('2026-06-01', '2026-09-01')).toBeCloseTo(22.7, 1)
    expect(mean('2025-12-01', '2026-03-01')).toBeCloseTo(3.3, 1)
  })

  test.each([
    [{ animalsPerYear: -1 }],
    [{ monthShares: [1] }],
    [{ monthShares: EVEN_SHAPE.shares.map(share => share / 2) }],
    [{ eventSizes: [] }],
    [{ eventSizes: [0.5] }],
    [{ mark: '' }],
  ])('refuse %j', wrong => {
    expect(yearArrivals.safeParse({ ...ducks, ...wrong }).success).toBe(false)
  })

  test('are read as they were written', () => {
    expect(yearArrivals.parse(ducks)).toEqual(ducks)
  })
})
