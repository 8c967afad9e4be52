import { describe, expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import {
  ALL_SPECIES_SHAPE,
  EVEN_SHAPE,
  monthOf,
  SEASON_MONTHS,
  SEASON_SHARES,
  shareOfDay,
} from '#lib/domain/season.ts'

describe('the shape of a year', () => {
  // trade.md 3.1 (S22, S68): 26.0, 48.8, 18 and 7 per cent, rounded by the source.
  test.each(Object.entries(SEASON_SHARES))('repeats the published share of %s', (season, share) => {
    const months = SEASON_MONTHS[season as keyof typeof SEASON_MONTHS]
    const sum = months.reduce((all, month) => all + (ALL_SPECIES_SHAPE.shares[month - 1] ?? 0), 0)
    expect(Math.abs(sum - share)).toBeLessThan(0.003)
  })

  test.each([ALL_SPECIES_SHAPE, EVEN_SHAPE])('sums to the whole year', ({ shares }) => {
    expect(shares).toHaveLength(12)
    expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12)
  })

  test.each([2026, 2028])('gives every day of %i its share, and no more', year => {
    const first = dayOfDate(`${year}-01-01`)
    const next = dayOfDate(`${year + 1}-01-01`)
    let sum = 0
    for (let day = first; day < next; day++) sum += shareOfDay(ALL_SPECIES_SHAPE.shares, day)
    expect(sum).toBeCloseTo(1, 12)
  })

  test('knows the month of a day', () => {
    expect([monthOf(dayOfDate('2026-01-31')), monthOf(dayOfDate('2026-12-01'))]).toEqual([1, 12])
  })
})
