import { expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { cellKey, firstDayOfNextSeason, seasonOf, seasonOfCell } from '#lib/domain/stage-cell.ts'

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

test('only a stage that ends by a date is told apart by the season of admission', () => {
  const may = dayOfDate('2026-05-20')
  expect(seasonOfCell({ kind: 'length' }, may)).toBeNull()
  expect(seasonOfCell({ kind: 'date gate' }, may)).toBe('spring')
})

test('a key names plans, stage and season, whatever the order of the plans', () => {
  expect(cellKey(['wing.any-bird.open.surgical'], 2, null)).toBe('wing.any-bird.open.surgical|2')
  expect(cellKey(['b', 'a'], 1, 'autumn')).toBe('a+b|1|autumn')
  expect(cellKey(['a', 'b'], 1, 'autumn')).toBe(cellKey(['b', 'a'], 1, 'autumn'))
  expect(cellKey(['a'], 1, 'spring')).not.toBe(cellKey(['a'], 1, 'summer'))
})

test.each([
  ['2026-02-28', '2026-03-01'],
  ['2026-03-01', '2026-06-01'],
  ['2026-08-31', '2026-09-01'],
  ['2026-11-30', '2026-12-01'],
  ['2026-12-01', '2027-03-01'],
])('after %s the next season begins on %s', (date, next) => {
  expect(firstDayOfNextSeason(dayOfDate(date))).toBe(dayOfDate(next))
})
