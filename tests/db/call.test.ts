import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { callFacts } from '#lib/domain/call-facts.ts'
import { Failure } from '#lib/kernel/failure.ts'
import {
  openCall,
  promiseCallBack,
  readCall,
  readCallDesk,
  recordCallBack,
  setAside,
} from '#lib/service/call.ts'
import { findCallOutcome } from '#lib/service/call-outcome.ts'
import { decideSame, readSameCalls } from '#lib/service/same-animal.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'

const { pool } = database
const marit: PersonActor = { kind: 'person', personId: 1, name: 'Marit', roles: [{ role: 'coordinator' }] }
const joss: PersonActor = { ...marit, personId: 2, name: 'Joss' }
const manager: PersonActor = { ...marit, roles: [{ role: 'manager' }] }

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(`
    insert into person (name, email, password_hash) values ('Marit', 'm@example.org', 'x'), ('Joss', 'j@example.org', 'x');
    insert into person_role (person_id, role) values (1, 'coordinator'), (2, 'coordinator')`)
  client.release()
})

const SHEET = callFacts.parse({
  species: 'kestrel',
  animalTyped: 'kestrel',
  whereTyped: 'Mill',
  where: { how: 'gazetteer', latitude: 54, longitude: -3 },
})

async function callAbout(actor: PersonActor, at: Date): Promise<number> {
  const id = await openCall(actor, at)
  await pool.query('update call set facts = $2 where id = $1', [id, SHEET])
  return id
}

async function ruleOf(work: Promise<unknown>): Promise<string | undefined> {
  const thrown: unknown = await work.then(
    () => undefined,
    (refused: unknown) => refused,
  )
  return thrown instanceof Failure ? (thrown.rule ?? thrown.code) : undefined
}

describe('a call that is put aside', () => {
  it('says since when and by whom, until somebody writes on it or answers it', async () => {
    const id = await callAbout(marit, NOON)
    await setAside(joss, id, hours(1))
    expect(await readCall(marit, id)).toMatchObject({ state: 'parked', parkedAt: hours(1), parkedBy: 'Joss' })
    expect(await ruleOf(setAside(manager, id, hours(1)))).toBe('forbidden')
    await pool.query(`update call set state = 'closed', closed_at = $2, parked_at = null where id = $1`, [
      id,
      hours(2),
    ])
    expect(await ruleOf(setAside(joss, id, hours(3)))).toBe('call-closed-already')
  })
})

describe('a promised call-back', () => {
  it('has a time and an owner, stands overdue first, and is done once with what was said', async () => {
    const [later, sooner] = [await callAbout(marit, NOON), await callAbout(marit, NOON)]
    await promiseCallBack(marit, later, { minutes: '60', what: 'Still quiet?', ownerId: '2' }, NOON)
    await promiseCallBack(marit, sooner, { minutes: '10', what: 'Vet found?', ownerId: '' }, NOON)
    const { callBacks } = await readCallDesk(joss)
    expect(callBacks.map(({ what, owner }) => [what, owner])).toEqual([
      ['Vet found?', 'Marit'],
      ['Still quiet?', 'Joss'],
    ])
    const id = callBacks[0]!.id
    await recordCallBack(joss, id, { said: 'She drives over now' }, hours(1))
    expect(await ruleOf(recordCallBack(marit, id, {}, hours(1)))).toBe('rang-back-already')
    const { rows } = await pool.query('select done_by, said from call_back where id = $1', [id])
    expect(rows).toEqual([{ done_by: 2, said: 'She drives over now' }])
  })

  it('is owned by somebody who takes calls, and a refused promise leaves the call as it was', async () => {
    const id = await callAbout(marit, NOON)
    await pool.query(`insert into person (name, email, password_hash) values ('Carer', 'c@example.org', 'x')`)
    const promise = promiseCallBack(marit, id, { minutes: '10', what: 'x', ownerId: '3' }, NOON)
    expect(await ruleOf(promise)).toBe('invalid')
    expect(await readCall(marit, id)).toMatchObject({ state: 'open' })
  })
})

describe('two calls about the same animal', () => {
  const suspects = async (id: number) =>
    (await readSameCalls(marit, await readCall(marit, id))).suspects.map(call => call.id)

  it('are asked about until somebody decides, keep both sheets, and come apart by a later entry', async () => {
    const day = (n: number) => hours(100 + n)
    const [a, b, c] = [
      await callAbout(marit, day(0)),
      await callAbout(joss, day(1)),
      await callAbout(joss, day(2)),
    ]
    expect(await suspects(b)).toEqual([a, c])
    await decideSame(joss, b, { otherId: a, isSame: 'yes' }, day(2))
    await decideSame(joss, c, { otherId: b, isSame: 'no' }, day(2))
    expect(await suspects(b)).toEqual([])
    const { same } = await readSameCalls(marit, await readCall(marit, a))
    expect(same.map(({ call, said }) => [call.id, call.facts.whereTyped, said?.by])).toEqual([
      [b, 'Mill', 'Joss'],
    ])
    const waiting = (await readCallDesk(marit)).open.filter(({ id }) => id >= a)
    expect(waiting.map(({ id, sameAs }) => [id, sameAs])).toEqual([
      [a, null],
      [b, a],
      [c, null],
    ])
    await decideSame(marit, a, { otherId: b, isSame: 'no' }, day(3))
    expect((await readSameCalls(marit, await readCall(marit, a))).same).toEqual([])
    const { rows } = await pool.query('select is_same from call_pair where first_id = $1 order by id', [a])
    expect(rows).toEqual([{ is_same: true }, { is_same: false }])
  })

  it('are answered together; told apart, the one that had no answer of its own waits again', async () => {
    const day = (n: number) => hours(200 + n)
    const [a, b, old] = [
      await callAbout(marit, day(0)),
      await callAbout(joss, day(1)),
      await callAbout(joss, day(1)),
    ]
    await pool.query(`update call set state = 'closed', closed_at = $2 where id = any($1)`, [
      [a, old],
      day(2),
    ])
    await pool.query(
      `insert into decision (call_id, at, kind, taken_key, options, inputs) values ($1, $2, 'advice', 'k', '{"options":[],"ruledOut":[]}', '{}')`,
      [a, day(2)],
    )
    await pool.query('update call set closed_at = $2 where id = $1', [old, day(1)])
    await decideSame(joss, b, { otherId: a, isSame: 'yes' }, day(3))
    expect(await readCall(joss, b)).toMatchObject({ state: 'closed', closedAt: day(3) })
    expect((await findCallOutcome(joss, b))?.takenKey).toBe('k')
    await decideSame(joss, a, { otherId: b, isSame: 'no' }, day(4))
    expect(await readCall(joss, b)).toMatchObject({ state: 'open', closedAt: null, facts: SHEET })
    expect(await readCall(joss, a)).toMatchObject({ state: 'closed' })
    // Closed by word long ago, not through the other: it stays closed.
    await decideSame(joss, old, { otherId: a, isSame: 'yes' }, day(5))
    await decideSame(joss, old, { otherId: a, isSame: 'no' }, day(6))
    expect(await readCall(joss, old)).toMatchObject({ state: 'closed' })
  })
})
