import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { HeldRole, PersonActor } from '#lib/authz/actor.ts'
import { openCall, setAside } from '#lib/service/call.ts'
import { countCentre } from '#lib/service/closure.ts'
import { type Follower, startLive } from '#lib/service/live.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import { findActor } from '#lib/service/sign-in.ts'
import { tick } from '#lib/service/ticker.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'

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
