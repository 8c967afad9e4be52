/** Animals that came without an option: what one entry leaves of them, over the coast's own network and care plans. */
import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { seededRandom } from '#lib/numerics/random.ts'
import { openCall } from '#lib/service/call.ts'
import { recordCameIn } from '#lib/service/door.ts'
import { insertRows } from '#seed/load/bulk.ts'
import { readTradeFromReference } from '#seed/load/knowledge.ts'
import { referenceRows } from '#seed/load/reference.ts'
import { centreRows, networkRows, outsideRows, peopleRows } from '#seed/scenario/rows.ts'
import { database } from '#tests/support/database.ts'

const NOW = new Date('2026-06-10T12:00:00Z')
const FOUND = new Date('2026-06-10T10:30:00Z')
const [HERE, ELSEWHERE] = [1, 2] as const
const { pool } = database
const rows = async (sql: string, values: unknown[] = []) => (await pool.query(sql, values)).rows

const person = (role: PersonActor['roles'][number]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [role],
})
const carer = person({ role: 'carer', centreId: HERE })
const coordinator = person({ role: 'coordinator' })

const facts = {
  species: 'hedgehog',
  animalTyped: 'hedgehog',
  age: 'young',
  whereTyped: 'Behind the chapel',
  conditions: [{ slug: 'orphan-young', severity: null }],
  finderName: 'Bram Overwell',
  finderPhone: '07700 900601',
}
const input = (more: object = {}, told: object = {}) => ({
  centreId: HERE,
  foundAt: FOUND,
  facts: { ...facts, ...told },
  ...more,
})
const refusal = (work: Promise<unknown>) =>
  work.then(
    () => 'nothing',
    (thrown: Failure) => `${thrown.code} ${thrown.rule ?? ''}`.trim(),
  )

beforeAll(async () => {
  const client = await pool.connect()
  const tables = [
    ...referenceRows(),
    ...networkRows('2026-06-10'),
    ...outsideRows(),
    ...centreRows(readTradeFromReference()),
    ...peopleRows('x'),
  ]
  for (const [table, list] of tables) await insertRows(client, table, list)
  client.release()
})

describe('animals that came to the door', () => {
  it('are written with their plan and checks in one entry, with the finder since they were found', async () => {
    const [id] = await recordCameIn(carer, input(), NOW)
    const [casualty] = await rows(
      `select c.species_slug, c.age, c.given_on::text, a.found_words, a.call_id, a.finder_id, w.keeper, w.since,
              (select count(*)::int from casualty_stage s join casualty_plan p on p.id = s.casualty_plan_id
                where p.casualty_id = c.id) as stages,
              (select count(*)::int from check_due d where d.casualty_id = c.id) as checks,
              (select count(*)::int from claim k where k.casualty_id = c.id) as claims
         from casualty c join arrival a on a.id = c.arrival_id
         join whereabouts w on w.casualty_id = c.id and w.until is null where c.id = $1`,
      [id],
    )
    expect(casualty).toMatchObject({
      species_slug: 'hedgehog',
      age: 'young',
      given_on: '2026-06-10',
      found_words: 'Behind the chapel',
      call_id: null,
      keeper: 'finder',
      since: FOUND,
      claims: 0,
    })
    expect(casualty.stages).toBeGreaterThan(0)
    expect(casualty.checks).toBeGreaterThan(0)
    const audited = await rows(
      `select a.actor_words, a.action, a.at from audit a
         join casualty c on a.subject = 'arrival' and a.subject_id = c.arrival_id::text where c.id = $1`,
      [id],
    )
    expect(audited).toEqual([{ actor_words: 'One', action: 'came in', at: NOW }])
  })

  it('get no reference that was given within two years, and get it again afterwards', async () => {
    const nameOf = async ([id]: readonly number[]) =>
      (await rows('select reference from casualty where id = $1', [id]))[0].reference
    const first = () => 0
    const taken = await nameOf(await recordCameIn(carer, input(), new Date('2031-03-01T12:00:00Z'), first))
    const dayBefore = new Date('2033-02-27T12:00:00Z')
    expect(await nameOf(await recordCameIn(carer, input(), dayBefore, first))).not.toBe(taken)
    const twoYears = new Date('2033-02-28T12:00:00Z')
    expect(await nameOf(await recordCameIn(carer, input(), twoYears, first))).toBe(taken)
  })

  it('leave no name or number of a finder, who left none here', async () => {
    const [id] = await recordCameIn(carer, input(), NOW)
    const [arrival] = await rows(
      'select a.finder_id from arrival a join casualty c on c.arrival_id = a.id where c.id = $1',
      [id],
    )
    expect(arrival.finder_id).toBeNull()
    expect(await rows('select 1 from finder')).toEqual([])
  })

  it('expect the first stage at the centre they came to, and the later ones after it anywhere', async () => {
    const [id] = await recordCameIn(carer, input(), NOW)
    const stages = await rows(
      `select s.stage_no, s.centre_id from casualty_stage s join casualty_plan p on p.id = s.casualty_plan_id
        where p.casualty_id = $1 order by s.stage_no`,
      [id],
    )
    expect(stages.length).toBeGreaterThan(1)
    expect(stages.map(stage => stage.centre_id)).toEqual(stages.map((_, at) => (at === 0 ? HERE : null)))
    const due = await rows(
      `select min(due_on)::text as first from check_due where casualty_id = $1 and due_on is not null
        group by stage_no order by stage_no`,
      [id],
    )
    const days = due.map(row => row.first)
    expect(days.every(day => day >= '2026-06-10')).toBe(true)
  })

  it('are so many casualties of one arrival as were told, each with a reference of its own', async () => {
    const ids = await recordCameIn(carer, input({}, { count: 3, isBrood: true }), NOW, seededRandom(1))
    expect(ids).toHaveLength(3)
    const found = await rows('select arrival_id, reference from casualty where id = any ($1)', [ids])
    expect(new Set(found.map(row => row.arrival_id)).size).toBe(1)
    expect(new Set(found.map(row => row.reference)).size).toBe(3)
  })

  it('belong to the call that told of them', async () => {
    const callId = await openCall(coordinator, NOW)
    const [id] = await recordCameIn(coordinator, input({ callId }), NOW)
    const [arrival] = await rows(
      'select a.call_id from arrival a join casualty c on c.arrival_id = a.id where c.id = $1',
      [id],
    )
    expect(arrival.call_id).toBe(callId)
  })
})

describe('refused, with nothing written', () => {
  const count = async () => (await rows('select count(*)::int as n from entry'))[0].n

  it.each([
    [
      'a carer of another centre',
      () => recordCameIn(carer, input({ centreId: ELSEWHERE }), NOW),
      'not-found',
    ],
    ['a vet', () => recordCameIn(person({ role: 'vet', practiceId: 1 }), input(), NOW), 'not-found'],
    ['no animal', () => recordCameIn(carer, input({}, { species: null }), NOW), 'rule option-gone'],
    ['no reason', () => recordCameIn(carer, input({}, { conditions: [] }), NOW), 'rule option-gone'],
    ['a field nobody knows', () => recordCameIn(carer, input({ place: 1 }), NOW), 'invalid'],
  ])('%s', async (_, attempt, expected) => {
    const before = await count()
    expect(await refusal(attempt())).toBe(expected)
    expect(await count()).toBe(before)
  })
})
