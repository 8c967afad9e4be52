import { expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { seasonOf } from '#lib/learn/season.ts'

test.each([
  ['2026-02-28', 'winter'],
  ['2026-03-01', 'spring'],
  ['2026-05-31', 'spring'],
  ['2026-06-01', 'summer'],
  ['2026-09-01', 'autumn'],
  ['2026-11-30', 'autumn'],
  ['2026-12-01', 'winter'],
  ['2027-01-15', 'winter'],
])('%s is %s', (date, season) => {
  expect(seasonOf(dayOfDate(date))).toBe(season)
})
