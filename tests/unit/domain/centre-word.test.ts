import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { expect, it } from 'vitest'
import {
  daysOffered,
  feedsADay,
  noMoreEnds,
  ROUNDS_MAX,
  roundsEnd,
  roundsForm,
} from '#lib/domain/centre-word.ts'
import { dateOfDay } from '#lib/domain/day.ts'

const ZONE = 'Europe/London'

it('offer the seven days after today, by the network’s clock', () => {
  // 00:30 in London on 29 June is still 28 June elsewhere.
  const days = daysOffered(new Date('2026-06-28T23:30:00Z'), ZONE)
  expect(days.map(dateOfDay)).toEqual([
    '2026-06-30',
    '2026-07-01',
    '2026-07-02',
    '2026-07-03',
    '2026-07-04',
    '2026-07-05',
    '2026-07-06',
  ])
})

it('end a word at eight in the morning of its day, through a change of the clocks', () => {
  // The clocks of Europe/London go back on 25 October 2026 (IANA time zone database).
  const [tomorrow = 0] = daysOffered(new Date('2026-10-24T12:00:00Z'), ZONE)
  expect(noMoreEnds(tomorrow, ZONE)).toEqual(new Date('2026-10-25T08:00:00Z'))
  expect(noMoreEnds(tomorrow - 1, ZONE)).toEqual(new Date('2026-10-24T07:00:00Z'))
  expect(roundsEnd(new Date('2026-10-20T12:00:00Z'), ZONE)).toEqual(new Date('2026-10-27T08:00:00Z'))
})

it('count rounds for young that are fed by hand, and for no other', () => {
  // A songbird nestling is fed every 15 to 30 minutes by day (seed/reference/groups.csv; common practice, no source).
  expect(feedsADay('small-songbirds', 'young')).toBe(28)
  expect(feedsADay('small-songbirds', 'adult')).toBe(0)
  expect(feedsADay('ducks', 'young')).toBe(0)
  expect(feedsADay('toString', 'young')).toBe(0)
})

it('names only groups that there are', () => {
  const rows = parse<{ slug: string }>(
    readFileSync(new URL('../../../seed/reference/groups.csv', import.meta.url), 'utf8'),
    { columns: true },
  )
  const slugs = rows.map(row => row.slug)
  const source = readFileSync(new URL('../../../lib/domain/centre-word.ts', import.meta.url), 'utf8')
  const [, table = ''] = /HAND_FEEDS[^{]*\{([^}]*)\}/.exec(source) ?? []
  const named = [...table.matchAll(/^\s+'?([a-z-]+)'?: \d+/gm)].map(([, slug]) => slug)
  expect(named.length).toBeGreaterThan(20)
  expect(named.filter(slug => slug === undefined || !slugs.includes(slug))).toEqual([])
})

it('takes a number of rounds between none and every quarter of an hour', () => {
  const ok = (rounds: string) => roundsForm.safeParse({ rounds }).success
  expect([ok('0'), ok(String(ROUNDS_MAX)), ok('-1'), ok(String(ROUNDS_MAX + 1)), ok('')]).toEqual([
    true,
    true,
    false,
    false,
    false,
  ])
})
