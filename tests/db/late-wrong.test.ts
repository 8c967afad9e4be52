/**
 * What was recorded late or wrongly: it is saved, offers the correction, can be taken back by a new entry, and
 * stays readable.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listTally } from '#lib/db/tally.ts'
import { readCasualty } from '#lib/service/casualty.ts'
import { readDue } from '#lib/service/due.ts'
import { bookDeparture, holdPlace } from '#lib/service/hold.ts'
import { recordArrived, recordMoved, recordOutcome, recordUndone } from '#lib/service/record.ts'
import { recordCheck } from '#lib/service/record-stay.ts'
import { lostWords } from '#lib/words/casualty.ts'
import { happenedWords, takesBackWords } from '#lib/words/casualty-happened.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { givePlans, giveWeighing, PEOPLE_AND_POLICY } from '#tests/support/stay-world.ts'

const { pool } = database
const ZONE = 'Europe/London'
const NORTH = 1
const SOUTH = 2
/** Enclosures: three for several small birds, one for one kestrel with nothing to clean after it. */
const [WARD, OTHER, ONE_KESTREL] = [3, 2, 7] as const
const DIED = { alive: 'dead', whereNow: 'died by itself' } as const
const desk: PersonActor = { kind: 'person', personId: 1, name: 'One', roles: [{ role: 'coordinator' }] }
const carer: PersonActor = { ...desk, roles: [{ role: 'carer', centreId: SOUTH }] }

/** Kestrels, each for one story, so that no story depends on another. */
const [FIRST, LATE, FOUND, GIVEN, HELD, LOST, NEXT] = [13, 18, 23, 33, 38, 8, 3] as const

const rows = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows
const one = async (text: string, values: unknown[] = []) => (await rows(text, values))[0]
const card = (animal: number, at: Date) => readCasualty(desk, `test ${animal}`, {}, at)
const happened = async (animal: number, at: Date) =>
  (await card(animal, at)).happened.map(({ state, what }) => [
    state,
    state === 'takes back' ? takesBackWords(what) : happenedWords(what),
  ])

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(PEOPLE_AND_POLICY)
  await givePlans(client, [LOST, GIVEN])
  client.release()
})

describe('a stay recorded two days late', () => {
  it('names who stood in the place then, with the correction, also when it is over', async () => {
    await recordArrived(desk, FIRST, { centreId: SOUTH, enclosureId: ONE_KESTREL }, hours(-200))
    await recordArrived(desk, LATE, { centreId: SOUTH }, hours(-199))
    const [from, until] = [hours(-48), hours(-24)]
    await recordMoved(desk, LATE, { enclosureId: ONE_KESTREL, since: from }, NOON)
    const standing = await card(LATE, NOON)
    expect(standing.now).toMatchObject({ short: 'full', since: from })
    expect(standing.late.firstIn).toMatchObject([
      { reference: `test ${FIRST}`, centreId: SOUTH, since: hours(-200) },
    ])
    await recordMoved(desk, LATE, { centreId: SOUTH, since: until }, NOON)
    // It is elsewhere now, the question is still open: its line in the history asks it.
    const met = (await card(LATE, hours(1))).happened.flatMap(entry => entry.met)
    expect(met).toMatchObject([{ reference: `test ${FIRST}`, centreId: SOUTH, since: hours(-200), at: from }])
    await recordMoved(desk, FIRST, { to: 'finder', since: from }, hours(1))
    const after = await card(LATE, hours(1))
    expect(after.happened.flatMap(entry => entry.met)).toEqual([])
    expect(after.happened.filter(({ enteredAt }) => enteredAt !== null).map(({ at }) => at)).toEqual([
      until,
      from,
    ])
    await recordMoved(desk, LATE, { to: 'finder' }, hours(2))
  })
})

describe('an animal found in another enclosure than recorded', () => {
  it('is moved there from when it was found, or from the start by a correction; both can be taken back', async () => {
    const { made: wrong } = await recordArrived(
      desk,
      FOUND,
      { centreId: NORTH, enclosureId: WARD },
      hours(-10),
    )
    const { made: right } = await recordMoved(
      desk,
      FOUND,
      { enclosureId: OTHER, since: hours(-10), supersedes: wrong },
      NOON,
    )
    expect((await card(FOUND, NOON)).now).toMatchObject({ enclosureId: OTHER, since: hours(-10) })
    expect((await happened(FOUND, NOON)).slice(0, 2)).toEqual([
      ['corrected', 'Arrived: North, E3'],
      ['as it is', 'Arrived: North, E2'],
    ])
    await recordMoved(desk, FOUND, { enclosureId: WARD, since: hours(-2) }, NOON)
    expect((await card(FOUND, NOON)).now.enclosureId).toBe(WARD)
    // An older fact can be taken back too, under one that stands.
    const { made: between } = await recordMoved(desk, FOUND, { centreId: NORTH, since: hours(-5) }, NOON)
    await recordUndone(desk, FOUND, between, hours(1))
    expect((await card(FOUND, hours(1))).now).toMatchObject({ enclosureId: WARD, since: hours(-2) })
    expect(right).toBeGreaterThan(wrong)
  })
})

describe('a death entered on the wrong animal', () => {
  const tally = async (at: Date) => {
    const lines = await listTally(demand(systemActor('test'), 'casualty.read'), hours(-2000), at)
    const inAll = (state?: string) =>
      lines
        .filter(line => state === undefined || line.state === state)
        .reduce((sum, { animals }) => sum + animals, 0)
    return { admitted: inAll(), inCare: inAll('in care'), died: inAll('died') }
  }

  it('is taken back: its place, its checks, and by name what is not put back; counts and both entries stand', async () => {
    await recordArrived(desk, LOST, { centreId: SOUTH, enclosureId: ONE_KESTREL }, hours(4))
    const check = await giveWeighing(pool, LOST, { due_on: '2026-06-12' })
    await holdPlace(desk, LOST, { enclosureId: 5, startsAt: hours(60), expectedAt: hours(60) }, hours(5))
    await bookDeparture(desk, LOST, { leavesAt: hours(60) }, hours(5))
    await pool.query(`insert into referral (casualty_id, what, opened_at) values ($1, 'wing', $2)`, [
      LOST,
      hours(5),
    ])
    const before = await tally(hours(6))
    const { made: death } = await recordOutcome(desk, LOST, { ...DIED, since: hours(6) }, hours(7))
    expect(await tally(hours(7))).toEqual({ ...before, inCare: before.inCare - 1, died: before.died + 1 })
    expect(await one('select called_off_at from check_due where id = $1', [check])).toEqual({
      called_off_at: hours(7),
    })

    await recordUndone(desk, LOST, death, hours(8))
    expect(await tally(hours(8))).toEqual(before)
    const back = await card(LOST, hours(8))
    expect(back.now).toMatchObject({
      keeper: 'centre',
      enclosureId: ONE_KESTREL,
      short: null,
      againstRule: [],
    })
    expect(back.checks.find(({ id }) => id === check)).toMatchObject({ isCalledOff: false, doneAt: null })
    const due = await readDue(carer, hours(72))
    const owed = due.all.flatMap(({ about }) => (about.kind === 'check' ? about.references : []))
    expect(owed.filter(reference => reference === `test ${LOST}`)).toHaveLength(1)
    expect(back.late.lost.map(lost => lostWords(lost, ZONE))).toEqual([
      'The place kept in North, E5, for Sat 13 Jun, 01:00',
      'Booked to leave Sat 13 Jun, 01:00',
      'The search for a vet: wing',
    ])
    expect((await happened(LOST, hours(8))).slice(0, 2)).toEqual(
      expect.arrayContaining([
        ['taken back', 'Died'],
        ['takes back', 'Taken back: Died'],
      ]),
    )
    // Once something newer is recorded, the notice has done its work.
    await recordMoved(desk, LOST, { centreId: SOUTH }, hours(9))
    expect((await card(LOST, hours(9))).late.lost).toEqual([])
    await recordCheck(desk, check, { passed: true }, hours(10))
  })

  it('and its place given meanwhile: the newcomer is named, and one word about either of them puts it right', async () => {
    await recordArrived(desk, GIVEN, { centreId: SOUTH, enclosureId: ONE_KESTREL }, hours(20))
    const { made: death } = await recordOutcome(desk, GIVEN, DIED, hours(21))
    await recordArrived(desk, NEXT, { centreId: SOUTH, enclosureId: ONE_KESTREL }, hours(22))
    expect((await card(NEXT, hours(22))).now.short).toBeNull()
    await recordUndone(desk, GIVEN, death, hours(23))
    const [mine, theirs] = [await card(GIVEN, hours(23)), await card(NEXT, hours(23))]
    expect([mine.now.short, theirs.now.short]).toEqual([null, 'full'])
    expect(mine.late.sinceIn).toMatchObject([
      { reference: `test ${NEXT}`, centreId: SOUTH, since: hours(22) },
    ])
    expect(theirs.late.firstIn).toMatchObject([{ reference: `test ${GIVEN}` }])
    await recordMoved(desk, GIVEN, { centreId: SOUTH, since: hours(22) }, hours(24))
    const [after, healed] = [await card(GIVEN, hours(24)), await card(NEXT, hours(24))]
    expect([after.late.sinceIn, healed.now.short]).toEqual([[], null])
    await recordMoved(desk, NEXT, { centreId: SOUTH }, hours(25))
  })

  it('and its place promised meanwhile: the promise gives way and is named', async () => {
    await recordArrived(desk, HELD, { centreId: SOUTH, enclosureId: ONE_KESTREL }, hours(30))
    const { made: death } = await recordOutcome(desk, HELD, DIED, hours(31))
    const kept = { enclosureId: ONE_KESTREL, placeNo: 1, startsAt: hours(40), endsAt: hours(60) }
    const { made: claim } = await holdPlace(desk, FIRST, kept, hours(32))
    const { broken } = await recordUndone(desk, HELD, death, hours(33))
    expect(broken).toMatchObject([{ claimId: claim, reference: `test ${FIRST}` }])
    expect((await card(HELD, hours(33))).broken).toMatchObject([{ reference: `test ${FIRST}` }])
    await recordMoved(desk, HELD, { centreId: SOUTH }, hours(34))
  })
})
