import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { HeldRole, PersonActor } from '#lib/authz/actor.ts'
import { openCall, setAside } from '#lib/service/call.ts'
import { countCentre } from '#lib/service/closure.ts'
import { readDue } from '#lib/service/due.ts'
import { type Follower, startLive } from '#lib/service/live.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import { callOff, planRelease, recordRelease } from '#lib/service/release.ts'
import { addSeason } from '#lib/service/setup/season.ts'
import { findActor } from '#lib/service/sign-in.ts'
import { tick } from '#lib/service/ticker.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { seasonTyped } from '#tests/support/setup-forms.ts'

const { pool } = database
const person = (role: HeldRole, personId = 1): PersonActor => ({
  kind: 'person',
  personId,
  name: 'One',
  roles: [role],
})
const coordinator = person({ role: 'coordinator' })
const faults: unknown[] = []
const live = startLive(fault => faults.push(fault))

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(`
    insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x'), ('Two', 'two@example.org', 'x');
    insert into person_role (person_id, role) values (2, 'coordinator')`)
  client.release()
})
afterAll(async () => {
  await live.stop()
  expect(faults).toEqual([])
})

function follow(actor: PersonActor): { heard: string[]; stop: () => void } {
  const heard: string[] = []
  const stop = live.follow({
    personId: actor.personId,
    who: async () => actor,
    hear: ({ noun, id }) => {
      // What `listening` told may still be under way.
      if (id !== '0') heard.push(`${noun} ${id}`)
    },
    end: () => heard.push('end'),
  })
  return { heard, stop }
}

/** A song thrush at North that nothing bars. */
const GOES = 16

/** Until the listener has its connection, what is told goes by. */
async function listening(): Promise<void> {
  let heard = 0
  const stop = live.follow({
    personId: 1,
    who: async () => coordinator,
    hear: () => heard++,
    end: () => undefined,
  })
  await expect
    .poll(async () => {
      await pool.query(`select pg_notify('roostwright', 'line:0')`)
      return heard
    })
    .toBeGreaterThan(0)
  stop()
}

describe('what is told as it changes', () => {
  it('reaches whoever may see the row, and nobody else', async () => {
    await listening()
    const desk = follow(coordinator)
    const north = follow(person({ role: 'carer', centreId: 1 }))
    const south = follow(person({ role: 'carer', centreId: 2 }))
    const vet = follow(person({ role: 'vet', practiceId: 1 }))
    const id = await openCall(coordinator, NOON)
    await setAside(coordinator, id, NOON)
    await recordArrived(coordinator, 10, { centreId: '2' }, NOON)
    await countCentre(coordinator, 1, NOON)
    // In whatever order: each is looked up by itself.
    await expect
      .poll(() => [...new Set(desk.heard)].sort())
      .toEqual([`call ${id}`, 'casualty 10', 'centre 1'])
    expect(south.heard).toEqual(['casualty 10'])
    expect(north.heard).toEqual(['centre 1'])
    await recordMoved(coordinator, 10, { to: 'practice', practiceId: '1' }, hours(1))
    await expect.poll(() => vet.heard).toEqual(['casualty 10'])
    // The centre that it left hears that it left.
    await expect.poll(() => south.heard).toEqual(['casualty 10', 'casualty 10'])
    for (const { stop } of [desk, north, south, vet]) stop()
  })

  it('tells the centre that a promise of it ran out', async () => {
    const { heard, stop } = follow(person({ role: 'carer', centreId: 2 }))
    const elsewhere = follow(person({ role: 'carer', centreId: 1 }))
    const { rows } = await pool.query<{ id: number }>(
      `select plan_hold(12, 8, null, $1, null, $1, $2, false, null, $1) as id`,
      [NOON, hours(1)],
    )
    await tick(hours(2))
    await expect.poll(() => heard).toEqual([`claim ${rows[0]!.id}`])
    expect(elsewhere.heard).toEqual([])
    stop()
    elsewhere.stop()
  })

  it('is told when the transaction commits, and not when it does not', async () => {
    const { heard, stop } = follow(coordinator)
    const client = await pool.connect()
    await client.query('begin')
    await client.query(`insert into call (opened_at) values (now())`)
    await client.query('rollback')
    client.release()
    await pool.query(`select pg_notify('roostwright', 'line:1')`)
    await expect.poll(() => heard).toEqual(['line 1'])
    stop()
  })

  it('tells what becomes of a release to the centres of its animals, and a season to whoever reads animals', async () => {
    const client = await pool.connect()
    await record(client, { casualty_id: GOES, since: hours(-9), keeper: 'centre', centre_id: 1 })
    client.release()
    const [desk, north, south] = [
      follow(coordinator),
      follow(person({ role: 'carer', centreId: 1 })),
      follow(person({ role: 'carer', centreId: 2 })),
    ]
    const plan = (at: Date) =>
      planRelease(
        coordinator,
        { animals: [GOES], at, site: 'The oak', latitude: '', longitude: '', way: 'hard', releaser: 'One' },
        NOON,
      )
    const first = await plan(hours(30))
    await expect.poll(() => north.heard).toContain(`release ${first}`)
    await callOff(coordinator, { releaseId: first }, hours(1))
    await expect.poll(() => north.heard.filter(heard => heard === `release ${first}`)).toHaveLength(2)
    const second = await plan(hours(30))
    const animals = [{ casualtyId: GOES, went: 'yes', ring: 'EV 1' }]
    await recordRelease(coordinator, { releaseId: second, releaser: 'One', animals, at: hours(2) }, hours(2))
    await expect.poll(() => north.heard.filter(heard => heard === `release ${second}`)).toHaveLength(2)
    await expect.poll(() => desk.heard.filter(heard => heard.startsWith('release'))).toHaveLength(4)
    await addSeason(person({ role: 'manager' }), { ...seasonTyped }, NOON)
    await expect.poll(() => south.heard).toEqual(['season kestrel.migration'])
    for (const { stop } of [desk, north, south]) stop()
  })

  it('ends with the session, at once when it is ended', async () => {
    let ended = 0
    const follower: Follower = {
      personId: 2,
      who: () => findActor(2, 1),
      hear: () => undefined,
      end: () => ended++,
    }
    const stop = live.follow(follower)
    expect(await live.lookAgain(follower)).toBe(true)
    await pool.query('update person set session_epoch = session_epoch + 1 where id = 2')
    await expect.poll(() => ended).toBe(1)
    expect(await live.lookAgain(follower)).toBe(false)
    stop()
  })

  it('tells what falls due, once whichever process sees it, to whom it concerns', async () => {
    const due = hours(30)
    await tick(hours(29))
    const [desk, south, north] = [
      follow(coordinator),
      follow(person({ role: 'carer', centreId: 2 })),
      follow(person({ role: 'carer', centreId: 1 })),
    ]
    const { rows } = await pool.query<{ call: number; hold: number; turn: number }>(
      `with opened as (insert into call (opened_at) values ($1) returning id),
            promised as (insert into call_back (call_id, due_at, owner_id, what) select id, $2, 1, 'x' from opened),
            turned as (insert into line_turn (holder_id, taken_at, until_at, how) values (1, $1, $2, 'taken-up') returning id)
       select opened.id as call, turned.id as turn, plan_hold(12, 8, null, $1, null, $2, $3, false, null, $1) as hold
         from opened, turned`,
      [hours(29), due, hours(40)],
    )
    const { call, hold, turn } = rows[0]!
    await expect.poll(() => desk.heard).toContain(`call ${call}`)
    for (const { heard } of [desk, south, north]) heard.splice(0)
    expect((await tick(hours(29.9))).told).toBe(0)
    const beats = await Promise.all([tick(due), tick(due), tick(due), tick(due)])
    expect(beats.reduce((sum, { told }) => sum + told, 0)).toBe(3)
    await expect.poll(() => [...desk.heard].sort()).toEqual([`call ${call}`, `claim ${hold}`, `line ${turn}`])
    expect(south.heard).toEqual([`claim ${hold}`])
    expect(north.heard).toEqual([])
    expect((await tick(hours(30.1))).told).toBe(0)
    // A clock that was set back comes to the same hour again.
    expect((await tick(hours(29.9))).told).toBe(0)
    expect((await tick(due)).told).toBe(3)
    for (const { stop } of [desk, south, north]) stop()
  })

  it('tells a departure whose hour has come, though it slipped in the same beat', async () => {
    const { heard, stop } = follow(person({ role: 'carer', centreId: 2 }))
    await tick(hours(49))
    const id = 14
    await pool.query(
      `with e as (insert into entry (entered_at) values ($1) returning id)
       select record_keepings(jsonb_build_array(jsonb_build_object('entry_id', e.id, 'casualty_id', $2::int, 'since', $1::timestamptz,
                'keeper', 'centre', 'centre_id', 2, 'enclosure_id', 8)), $1) from e`,
      [hours(48), id],
    )
    await pool.query('select book_departure(null, $1, $2, $3)', [id, hours(50), hours(49)])
    await tick(hours(50))
    await expect.poll(() => heard).toContain(`casualty ${id}`)
    const { rows: slipped } = await pool.query('select state from departure where casualty_id = $1', [id])
    expect(slipped).toEqual([{ state: 'slipped' }])
    const { all } = await readDue(person({ role: 'carer', centreId: 2 }), hours(50))
    expect(all.filter(({ about }) => about.kind === 'departure').map(({ at }) => at)).toEqual([hours(50)])
    stop()
  })

  it('goes on after the connection was lost, and says that something may have been missed', async () => {
    const { heard, stop } = follow(coordinator)
    await pool.query(
      `select pg_terminate_backend(pid) from pg_stat_activity
        where datname = current_database() and query ilike 'listen %'`,
    )
    await expect.poll(() => heard, { timeout: 10_000 }).toContain('everything ')
    await pool.query(`select pg_notify('roostwright', 'line:2')`)
    await expect.poll(() => heard).toContain('line 2')
    expect(faults.splice(0)).toHaveLength(1)
    stop()
  })
})
