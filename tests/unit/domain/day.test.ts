import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  dateOfDay,
  dayOfDate,
  dayOfInstant,
  isSaidTwice,
  shareOfDayLeft,
  startOfDay,
  weekdayOf,
} from '#lib/domain/day.ts'

const ZONES = ['Europe/London', 'Europe/Berlin', 'Pacific/Chatham', 'America/St_Johns', 'UTC']

describe('a day', () => {
  test('is a number of whole days since 1970', () => {
    expect([dayOfDate('1970-01-01'), dayOfDate('1970-01-02'), dayOfDate('1969-12-31')]).toEqual([0, 1, -1])
    expect(() => dayOfDate('25.11.2026')).toThrow(RangeError)
    expect(() => dayOfDate('2026-13-01')).toThrow(RangeError)
  })

  test('and its date are the same thing', () => {
    fc.assert(
      fc.property(fc.integer({ min: -30_000, max: 60_000 }), day => dayOfDate(dateOfDay(day)) === day),
    )
  })

  // engine.md, section 0: the clocks go forward in between, so 47.5 hours are still two midnights.
  test('counts midnights, not hours', () => {
    const from = dayOfInstant(new Date('2026-03-28T11:00:00Z'), 'Europe/Berlin')
    const until = dayOfInstant(new Date('2026-03-30T09:30:00Z'), 'Europe/Berlin')
    expect(until - from).toBe(2)
  })

  test('begins at its own midnight in every zone', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40_000 }), fc.constantFrom(...ZONES), (day, zone) => {
        const start = startOfDay(day, zone)
        expect(dayOfInstant(start, zone)).toBe(day)
        expect(dayOfInstant(new Date(start.getTime() - 1), zone)).toBe(day - 1)
      }),
    )
  })

  test('has as much left as its length says, short days too', () => {
    expect(shareOfDayLeft(new Date('2026-11-25T00:00:00Z'), 'UTC')).toBe(1)
    expect(shareOfDayLeft(new Date('2026-11-25T18:00:00Z'), 'UTC')).toBe(0.25)
    // 29 March 2026 has 23 hours in London; at noon on the wall eleven of them are over.
    expect(shareOfDayLeft(new Date('2026-03-29T11:00:00Z'), 'Europe/London')).toBeCloseTo(12 / 23, 12)
  })

  // tz database, Europe/London: on 25 October 2026 at 01:00 UTC the clocks go from 02:00 back to 01:00.
  test('in autumn says an hour twice, and no other', () => {
    const twice = (text: string, zone = 'Europe/London') => isSaidTwice(new Date(text), zone)
    expect(['2026-10-24T23:59Z', '2026-10-25T02:00Z', '2027-03-28T00:30Z'].some(text => twice(text))).toBe(
      false,
    )
    expect(['2026-10-25T00:00Z', '2026-10-25T00:59Z', '2026-10-25T01:00Z'].every(text => twice(text))).toBe(
      true,
    )
    expect([twice('2026-10-25T01:59Z'), twice('2026-10-25T01:30Z', 'UTC')]).toEqual([true, false])
  })

  test('has a weekday, Monday first', () => {
    expect(
      ['2026-11-23', '2026-11-29', '1970-01-01', '1969-12-31'].map(date => weekdayOf(dayOfDate(date))),
    ).toEqual([1, 7, 4, 3])
  })
})
