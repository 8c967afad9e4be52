/**
 * The nights on which clocks change: days are days of the calendar, whatever the clocks did (tz database: Europe/London
 * goes back on 25 October 2026 at 01:00 UTC and forward on 28 March 2027 at 01:00 UTC).
 */
import { beforeAll, expect, it } from 'vitest'
import { z } from 'zod'
import type { PersonActor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { countInUse } from '#lib/db/past-nights.ts'
import { dayOfDate, startOfDay } from '#lib/domain/day.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import { readCasualty } from '#lib/service/casualty.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import { recordCheck, recordReady, recordStageMoved } from '#lib/service/record-stay.ts'
import { readReleases } from '#lib/service/release.ts'
import { clockTime, dayAndClock } from '#lib/words/dates.ts'
import { database } from '#tests/support/database.ts'
import { makeWorld } from '#tests/support/heart.ts'
import { givePlans, giveWeighing, PEOPLE_AND_POLICY } from '#tests/support/stay-world.ts'

const { pool } = database
const ZONE = 'Europe/London'
const [NORTH, SOUTH] = [1, 2] as const
/** Enclosures for several small birds. */
const [WARD, OTHER] = [3, 2] as const
const desk: PersonActor = { kind: 'person', personId: 1, name: 'One', roles: [{ role: 'coordinator' }] }
/** Each for one story, so that no story depends on another. */
const [CLOCK, NIGHT, SHORT_NIGHT, LONG_NIGHT] = [10, 15, 20, 25] as const

const one = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows[0]
const card = (animal: number, at: Date) => readCasualty(desk, `test ${animal}`, {}, at)
const inSouth = (at: readonly Date[]) =>
  countInUse(demand(systemActor('test'), 'forecast.read'), { centreId: SOUTH, housing: 'hospital-cage' }, at)
const midnights = (...dates: string[]) => dates.map(date => startOfDay(dayOfDate(date), ZONE))

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(PEOPLE_AND_POLICY)
  await givePlans(client, [CLOCK, NIGHT])
  client.release()
})

it('01:30 comes twice: two moves keep their order, and their clocks say which is which', async () => {
  const [first, second] = [new Date('2026-10-25T00:30Z'), new Date('2026-10-25T01:30Z')]
  await recordArrived(desk, CLOCK, { centreId: NORTH, enclosureId: WARD }, new Date('2026-10-24T20:00Z'))
  await recordMoved(desk, CLOCK, { enclosureId: OTHER, since: '2026-10-25T01:30' }, second)
  await recordMoved(desk, CLOCK, { enclosureId: WARD }, second)
  const { happened: entries, now } = await card(CLOCK, second)
  const moves = entries.filter(({ what }) => what.kind === 'keeping')
  expect(moves.map(({ at }) => at).slice(0, 2)).toEqual([second, first])
  expect(moves.slice(0, 2).map(({ at }) => clockTime(at, ZONE))).toEqual(['01:30 GMT', '01:30 BST'])
  expect(now).toMatchObject({ enclosureId: WARD, since: second })
})

it('an hour that does not exist is read as the one after it, and shown as that', async () => {
  const at = new Date('2027-03-28T08:00Z')
  await recordMoved(desk, CLOCK, { enclosureId: OTHER, since: '2027-03-28T01:30' }, at)
  const { now } = await card(CLOCK, at)
  expect(dayAndClock(now.since, ZONE)).toBe('Sun 28 Mar, 02:30')
  // Europe/Berlin goes from 02:00 to 03:00 at the same instant.
  const berlin = z.decode(localDateTimeText('Europe/Berlin'), '2027-03-28T02:30')
  expect(dayAndClock(berlin, 'Europe/Berlin')).toBe('Sun 28 Mar, 03:30')
})

it.each([
  [
    '25',
    LONG_NIGHT,
    '2026-10-24T22:30Z',
    '2026-10-25T23:30Z',
    midnights('2026-10-24', '2026-10-25', '2026-10-26'),
  ],
  [
    '23',
    SHORT_NIGHT,
    '2027-03-27T23:30Z',
    '2027-03-28T22:30Z',
    midnights('2027-03-27', '2027-03-28', '2027-03-29'),
  ],
])('a stay of %s hours is one night', async (length, animal, from, until, nights) => {
  const [came, went] = [new Date(from), new Date(until)]
  expect((went.getTime() - came.getTime()) / 3_600_000).toBe(Number(length))
  const before = await inSouth(nights)
  await recordArrived(desk, animal, { centreId: SOUTH, enclosureId: 7 }, came)
  await recordMoved(desk, animal, { centreId: SOUTH }, went)
  const after = await inSouth(nights)
  expect(after.map((count, at) => count - (before[at] ?? 0))).toEqual([0, 1, 0])
  // Told by its days in care, from the day it came: half an hour before midnight is the day before.
  const day = (at: Date) => card(animal, at).then(({ today, arrivedOn }) => today - arrivedOn)
  expect((await day(went)) - (await day(came))).toBe(1)
})

it('checks count from the day on the wall on both sides of midnight, and so do the days of waiting', async () => {
  const [before, after] = [new Date('2026-10-24T22:59Z'), new Date('2026-10-24T23:00Z')]
  await recordArrived(desk, NIGHT, { centreId: NORTH, enclosureId: 6 }, new Date('2026-10-20T12:00Z'))
  const check = await giveWeighing(pool, NIGHT, {
    due_on: '2026-10-21',
    counted_from: '2026-10-20',
    interval_days: 1,
  })
  const dueOn = async () =>
    (
      await one('select due_on::text as on from check_due where casualty_id = $1 and done_at is null', [
        NIGHT,
      ])
    ).on
  // 23:59 of the 24th and midnight of the 25th in British summer time.
  await recordStageMoved(desk, NIGHT, { stageNo: 1, at: before }, before)
  expect(await dueOn()).toBe('2026-10-25')
  await recordStageMoved(desk, NIGHT, { stageNo: 1, at: after }, after)
  expect(await dueOn()).toBe('2026-10-26')
  // The day of 25 hours: done at 23:30 of it, due again on the day after, not on the same one.
  await recordCheck(desk, check, { passed: true }, new Date('2026-10-25T23:30Z'))
  expect(await dueOn()).toBe('2026-10-26')
  await recordReady(desk, NIGHT, { stageNo: 1 }, new Date('2026-10-24T23:30Z'))
  const waited = async (at: string) =>
    (await readReleases(desk, new Date(at))).fit.find(({ id }) => id === NIGHT)?.days
  expect([await waited('2026-10-25T23:59Z'), await waited('2026-10-26T00:00Z')]).toEqual([0, 1])
})
