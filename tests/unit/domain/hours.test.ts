import { describe, expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { type CentreDoor, coverAt, doorAt, instantOfMinute, isOpenAt, opensNext } from '#lib/domain/hours.ts'

const LONDON = 'Europe/London'
const every = (opensMinute: number, closesMinute: number) =>
  [1, 2, 3, 4, 5, 6, 7].map(weekday => ({ weekday, opensMinute, closesMinute }))
const centre = (more: Partial<CentreDoor> = {}): CentreDoor => ({
  hours: every(8 * 60, 20 * 60),
  nightDoor: 'shut',
  nightName: null,
  nightPhone: null,
  ...more,
})
const at = (text: string) => new Date(text)

describe('the door of a centre', () => {
  test('is open by its hours, until they end', () => {
    expect(doorAt(centre(), at('2026-11-25T19:59:00Z'), LONDON)).toEqual({
      kind: 'open',
      until: at('2026-11-25T20:00:00Z'),
    })
  })

  test('is shut the minute they end, until they begin', () => {
    expect(doorAt(centre(), at('2026-11-25T20:00:00Z'), LONDON)).toEqual({
      kind: 'shut',
      opens: at('2026-11-26T08:00:00Z'),
    })
  })

  test('is opened at night by whoever is there or on call', () => {
    const night = at('2026-11-25T23:40:00Z')
    const opens = at('2026-11-26T08:00:00Z')
    expect(doorAt(centre({ nightDoor: 'staffed' }), night, LONDON)).toEqual({ kind: 'staffed', opens })
    expect(
      doorAt(
        centre({ nightDoor: 'on-call', nightName: 'Wren Ashby', nightPhone: '01632 960 100' }),
        night,
        LONDON,
      ),
    ).toEqual({ kind: 'on-call', name: 'Wren Ashby', phone: '01632 960 100', opens })
  })

  test('that is on call with nobody named is shut', () => {
    expect(doorAt(centre({ nightDoor: 'on-call' }), at('2026-11-25T23:40:00Z'), LONDON).kind).toBe('shut')
  })

  test('that never opens says so', () => {
    expect(doorAt(centre({ hours: [] }), at('2026-11-25T12:00:00Z'), LONDON)).toEqual({
      kind: 'shut',
      opens: null,
    })
  })

  test('that is open round the clock has no end', () => {
    expect(doorAt(centre({ hours: every(0, 1440) }), at('2026-11-25T12:00:00Z'), LONDON)).toEqual({
      kind: 'open',
      until: null,
    })
  })

  test('joins hours that meet at midnight', () => {
    const late = centre({
      hours: [
        { weekday: 3, opensMinute: 18 * 60, closesMinute: 1440 },
        { weekday: 4, opensMinute: 0, closesMinute: 120 },
      ],
    })
    const open = { kind: 'open', until: at('2026-11-26T02:00:00Z') }
    expect(doorAt(late, at('2026-11-25T23:59:00Z'), LONDON)).toEqual(open)
    expect(doorAt(late, at('2026-11-26T00:30:00Z'), LONDON)).toEqual(open)
    expect(doorAt(late, at('2026-11-26T02:00:00Z'), LONDON)).toEqual({
      kind: 'shut',
      opens: at('2026-12-02T18:00:00Z'),
    })
  })
})

// Clock changes of Europe/London in 2026: 29 March 01:00 UTC forward, 25 October 01:00 UTC back (tz database).
describe('when the clocks change', () => {
  test('a door still opens at 08:00 on the wall', () => {
    expect(opensNext(every(480, 1200), at('2026-03-28T22:00:00Z'), LONDON)).toEqual(
      at('2026-03-29T07:00:00Z'),
    )
    expect(opensNext(every(480, 1200), at('2026-10-24T22:00:00Z'), LONDON)).toEqual(
      at('2026-10-25T08:00:00Z'),
    )
  })

  test('the hour that comes twice is open twice', () => {
    const hours = every(60, 120)
    expect(isOpenAt(hours, at('2026-10-25T00:30:00Z'), LONDON)).toBe(true)
    expect(isOpenAt(hours, at('2026-10-25T01:30:00Z'), LONDON)).toBe(true)
    expect(isOpenAt(hours, at('2026-10-25T02:00:00Z'), LONDON)).toBe(false)
  })

  test('a minute that is skipped falls after the gap', () => {
    const skipped = instantOfMinute(dayOfDate('2026-03-29'), 90, LONDON)
    expect(skipped).toEqual(at('2026-03-29T01:30:00Z'))
  })
})

describe('the cover of a practice', () => {
  const practice = { hours: every(540, 1080), phone: '1', hasNightCover: true, nightPhone: '2' }

  test('is its own number by day, the night number at night', () => {
    expect(coverAt(practice, at('2026-11-25T10:00:00Z'), LONDON)).toEqual({
      kind: 'open',
      phone: '1',
      until: at('2026-11-25T18:00:00Z'),
    })
    expect(coverAt(practice, at('2026-11-25T23:00:00Z'), LONDON)).toEqual({
      kind: 'night cover',
      phone: '2',
      opens: at('2026-11-26T09:00:00Z'),
    })
  })

  test('is none at night without cover or number', () => {
    const night = at('2026-11-25T23:00:00Z')
    expect(coverAt({ ...practice, hasNightCover: false }, night, LONDON).kind).toBe('shut')
    expect(coverAt({ ...practice, nightPhone: null }, night, LONDON).kind).toBe('shut')
  })
})
