import { afterEach, beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listBatchInCare } from '#lib/db/batch.ts'
import { listMemberships } from '#lib/db/membership.ts'
import { listTally } from '#lib/db/tally.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { moveSomeOfBatch, recordOneOfBatch } from '#lib/service/batch.ts'
import { readCasualty } from '#lib/service/casualty.ts'
import { joinGroup, partGroup, takeBackGrouping, tellApart } from '#lib/service/group.ts'
import { recordArrived, recordUndone } from '#lib/service/record.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld } from '#tests/support/heart.ts'
import { PEOPLE_AND_POLICY } from '#tests/support/stay-world.ts'

const { pool } = database
const carer: PersonActor = {
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [{ role: 'carer', centreId: 2 }],
}
const reads = demand(carer, 'casualty.read', { centreIds: [2], practiceIds: [] })
/** Two litters of sparrows, and one that came alone; E7 and E8 take three sparrows each, E4 is isolation elsewhere. */
const FIRST = [1, 2, 3]
const SECOND = [4, 5, 6]
const SINGLE = 7
const RACES = 20
const died = { alive: 'dead', whereNow: 'died by itself' }
let clock = 0
const next = () => hours(++clock)

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(PEOPLE_AND_POLICY)
  await client.query(`
    insert into batch (arrival_id) values (1), (2);
    update casualty set species_slug = 'sparrow', company_slug = 'seedeaters-small', is_alone = false where id <= 8;
    update casualty set batch_id = 1, member_no = id, arrival_id = 1 where id <= 3;
    update casualty set batch_id = 2, member_no = id - 3, arrival_id = 2 where id between 4 and 6;
    update casualty set arrival_id = 3 where id in (7, 8)`)
  client.release()
  for (const id of [...FIRST, ...SECOND, SINGLE]) await recordArrived(carer, id, { centreId: '2' }, next())
})

/** What must hold after every step, whatever was done: nobody lost, nobody twice, arrivals untouched, log and animal agree. */
afterEach(async () => {
  const { rows } = await pool.query(`
    select count(*)::int as animals, count(distinct (batch_id, member_no)) filter (where batch_id is not null)::int as numbers,
           count(batch_id)::int as counted,
           count(*) filter (where arrival_id = 1)::int as one, count(*) filter (where arrival_id = 2)::int as two,
           count(*) filter (where m.id is not null and (c.batch_id, c.member_no, c.told_by)
             is distinct from (m.now_batch, m.now_no, m.now_by))::int as apart
      from casualty c
      left join lateral (select id, batch_id as now_batch, member_no as now_no, told_by as now_by
                           from membership where casualty_id = c.id order by id desc limit 1) m on true
     where c.id <= 7`)
  const [{ animals, numbers, counted, one, two, apart }] = rows
  expect({ animals, one, two, apart }).toEqual({ animals: 7, one: 3, two: 3, apart: 0 })
  expect(numbers).toBe(counted)
})

/** Who is counted together, lowest first: "1 2 3 | 4 5 6 | 7". */
async function groups(): Promise<string> {
  const { rows } = await pool.query<{ ids: number[] }>(
    `select array_agg(id order by id) as ids from casualty where id <= 7
      group by batch_id, case when batch_id is null then id end order by min(id)`,
  )
  return rows.map(({ ids }) => ids.join(' ')).join(' | ')
}
const placeOf = async (id: number) =>
  (
    await pool.query('select enclosure_id as e from whereabouts where casualty_id = $1 and until is null', [
      id,
    ])
  ).rows[0].e
const refusal = (work: Promise<unknown>) =>
  work.then(
    () => 'nothing',
    (thrown: Failure) => `${thrown.code} ${thrown.rule ?? ''}`.trim(),
  )
const card = (id: number) => readCasualty(carer, `test ${id}`, {}, hours(clock))
/** Whom the card offers to put it together with: the first of each, how many, where, and for how many there is room. */
const offered = async (id: number) =>
  (await card(id)).joinable.map(one => [one.withId, one.animals, one.enclosure, one.room])
const lastLine = async (id: number) => (await listMemberships(reads, id)).at(-1)?.id

describe('groups of several arrivals', () => {
  it('are put together by count or whole, go where the others are, and are read back', async () => {
    await moveSomeOfBatch(carer, 1, { count: '3', centreId: '2', enclosureId: '7' }, next())
    // Three places in E7, three in them: no room for anybody else.
    expect(await offered(7)).toEqual([[4, 3, null, null]])
    expect(await offered(4)).toEqual([[7, 1, null, null]])
    expect(await refusal(joinGroup(carer, 7, { withId: '1' }, next()))).toBe('rule group-no-room')
    expect(await refusal(joinGroup(carer, 4, { withId: '1', count: '2' }, next()))).toBe('rule group-no-room')
    expect([await groups(), await placeOf(5)]).toEqual(['1 2 3 | 4 5 6 | 7', null])
    await moveSomeOfBatch(carer, 1, { count: '2', centreId: '2' }, next())
    // Two places beside the first, which two of three may have.
    expect(await offered(4)).toEqual([
      [2, 2, null, null],
      [7, 1, null, null],
      [1, 1, 'E7', 2],
    ])
    expect(await refusal(joinGroup(carer, 4, { withId: '1' }, next()))).toBe('rule group-no-room')
    const { made } = await joinGroup(carer, 4, { withId: '1', count: '2' }, next())
    expect([made, await groups()]).toEqual([[5, 6], '1 2 3 5 6 | 4 | 7'])
    expect([await placeOf(5), await placeOf(6), await placeOf(4)]).toEqual([7, 7, null])
    const [line] = await listMemberships(reads, 5)
    expect(line).toMatchObject({
      kind: 'joined',
      withReference: 'test 1',
      animals: 2,
      entered: { by: 'One' },
    })
    expect((await listBatchInCare(reads, 1)).map(({ id, arrivalId }) => [id, arrivalId])).toEqual([
      [1, 1],
      [2, 1],
      [3, 1],
      [5, 2],
      [6, 2],
    ])
  })

  it('are parted again: those put in together go back to their own, others become a group', async () => {
    expect((await partGroup(carer, 5, { count: '2' }, next())).made).toEqual([5, 6])
    expect(await groups()).toBe('1 2 3 | 4 5 6 | 7')
    expect((await partGroup(carer, 2, { count: '1' }, next())).made).toEqual([3])
    expect(await groups()).toBe('1 2 | 3 | 4 5 6 | 7')
    expect(await refusal(partGroup(carer, 5, { count: '2' }, next()))).toBe('rule group-parts-some')
    expect(await refusal(partGroup(carer, 5, { count: '3' }, next()))).toBe('rule not-so-many-beside')
    await takeBackGrouping(carer, 3, await lastLine(3), next())
    expect(await groups()).toBe('1 2 3 | 4 5 6 | 7')
  })

  it('are taken back with where they went, and the history says all of it', async () => {
    await moveSomeOfBatch(carer, 5, { count: '1', centreId: '2' }, next())
    const before = await placeOf(7)
    await joinGroup(carer, 7, { withId: '5' }, next())
    expect([await groups(), await placeOf(7)]).toEqual(['1 2 3 | 4 5 6 7', 7])
    await takeBackGrouping(carer, 7, await lastLine(7), next())
    expect([await groups(), await placeOf(7)]).toEqual(['1 2 3 | 4 5 6 | 7', before])
    expect((await listMemberships(reads, 7)).map(({ kind, isTakenBack }) => [kind, isTakenBack])).toEqual([
      ['joined', true],
      ['taken-back', false],
    ])
    expect(await refusal(takeBackGrouping(carer, 7, (await listMemberships(reads, 7))[0]?.id, next()))).toBe(
      'conflict group-changed-since',
    )
  })

  it('are taken back as a whole by one entry of the card, and in either order once the move was taken back alone', async () => {
    const before = await placeOf(7)
    await joinGroup(carer, 7, { withId: '5' }, next())
    const undoable = async () =>
      (await card(7)).happened.flatMap(({ groupingId, keepingId, isWithGrouping }) =>
        groupingId === null && (keepingId === null || isWithGrouping) ? [] : [{ groupingId, keepingId }],
      )
    const [joined, ...older] = await undoable()
    expect(joined?.groupingId).toBe(await lastLine(7))
    const moved = (await card(7)).happened.find(({ isWithGrouping }) => isWithGrouping)
    expect(moved?.what).toMatchObject({ kind: 'keeping', enclosure: 'E7' })
    expect(older.map(({ keepingId }) => keepingId)).not.toContain(moved?.keepingId)

    // A page from before may still send the move alone: then the line is left, and undoes what is left to undo.
    await recordUndone(carer, 7, moved?.keepingId, next())
    expect([await groups(), await placeOf(7)]).toEqual(['1 2 3 | 4 5 6 7', before])
    expect((await undoable()).map(({ groupingId }) => groupingId)).toContain(await lastLine(7))
    await takeBackGrouping(carer, 7, await lastLine(7), next())
    expect([await groups(), await placeOf(7)]).toEqual(['1 2 3 | 4 5 6 | 7', before])
    expect((await card(7)).happened.filter(one => one.groupingId !== null || one.isWithGrouping)).toEqual([])
  })

  it('that moved on since are offered both again: the line for how they are counted, the move as an older one', async () => {
    await joinGroup(carer, 7, { withId: '5' }, next())
    await moveSomeOfBatch(carer, 7, { count: '1', centreId: '2' }, next())
    expect((await card(7)).happened.filter(({ isWithGrouping }) => isWithGrouping)).toEqual([])
    await takeBackGrouping(carer, 7, await lastLine(7), next())
    expect(await groups()).toBe('1 2 3 | 4 5 6 | 7')
  })

  it('two single ones become a group, and taking it back leaves none', async () => {
    await recordArrived(carer, 8, { centreId: '2' }, next())
    await joinGroup(carer, 7, { withId: '8' }, next())
    expect((await listBatchInCare(reads, 8)).map(({ id }) => id)).toEqual([8, 7])
    await takeBackGrouping(carer, 8, await lastLine(8), next())
    expect((await listBatchInCare(reads, 8)).map(({ id }) => id)).toEqual([8])
  })

  it.each([
    ['group-elsewhere', `update casualty set is_alone = is_alone`, 9],
    ['group-other-species', `update casualty set species_slug = 'robin' where id = 7`, 7],
    ['group-other-company', `update casualty set company_slug = 'thrushes' where id = 7`, 7],
    ['group-alone', `update casualty set is_alone = true where id = 7`, 7],
    ['group-suspect', `update casualty set is_disease_suspect = true where id = 7`, 7],
    ['group-already', `update casualty set is_alone = is_alone`, 2],
  ])('are refused by name: %s', async (rule, change, withId) => {
    await pool.query(change)
    expect((await offered(1)).map(([id]) => id)).not.toContain(withId)
    expect(await refusal(joinGroup(carer, 1, { withId: String(withId) }, next()))).toBe(`rule ${rule}`)
    await pool.query(
      `update casualty set species_slug = 'sparrow', company_slug = 'seedeaters-small', is_alone = false,
              is_disease_suspect = false where id = 7`,
    )
  })

  it('are refused in isolation, where an arrival is with itself only', async () => {
    await pool.query(`update enclosure set housing_type = 'isolation' where id = 8`)
    await recordArrived(carer, 7, { centreId: '2', enclosureId: '8' }, next())
    expect((await offered(1)).map(([id]) => id)).not.toContain(7)
    expect(await refusal(joinGroup(carer, 1, { withId: '7' }, next()))).toBe('rule group-in-isolation')
    await recordArrived(carer, 7, { centreId: '2' }, next())
    await pool.query(`update enclosure set housing_type = 'hospital-cage' where id = 8`)
  })

  it('one that can be told from the others is meant by no count', async () => {
    const all = async () => (await listBatchInCare(reads, 4)).filter(one => one.isBeside).map(({ id }) => id)
    await recordArrived(carer, 5, { centreId: '2' }, next())
    expect(await all()).toEqual([4, 5, 6])
    await tellApart(carer, 4, { toldBy: 'ring 12' }, next())
    await joinGroup(carer, 4, { withId: '7' }, next())
    expect(await groups()).toBe('1 2 3 | 4 5 6 7')
    const { made } = await recordOneOfBatch(carer, 4, died, next())
    // 7 was there first, so its number is the lowest; 4 is told apart.
    expect(made.id).toBe(7)
    expect((await recordOneOfBatch(carer, 4, died, next())).made.id).toBe(5)
    expect(await all()).toEqual([4, 6])
    await moveSomeOfBatch(carer, 4, { places: [], count: '1', centreId: '2', enclosureId: '8' }, next())
    expect([await placeOf(4), await placeOf(6)]).toEqual([null, 8])
  })

  it('those in the places that are named go, not those with the highest numbers', async () => {
    await recordArrived(carer, 1, { centreId: '2' }, next())
    await moveSomeOfBatch(carer, 1, { count: '3', centreId: '2', enclosureId: '7' }, next())
    const inE7 = (await listBatchInCare(reads, 1)).filter(({ enclosureId }) => enclosureId === 7)
    const [lowest] = inE7
    const { made } = await moveSomeOfBatch(
      carer,
      inE7[0]!.id,
      { places: [String(lowest!.placeNo)], count: '', centreId: '2' },
      next(),
    )
    expect(made).toEqual([lowest!.id])
    expect(await refusal(moveSomeOfBatch(carer, inE7[1]!.id, { places: ['9'], centreId: '2' }, next()))).toBe(
      'rule not-so-many-beside',
    )
  })
})

it('who was admitted is in care or ended, animals and arrivals apart, however they are regrouped', async () => {
  const sums = async () => {
    const lines = await listTally(reads, new Date('2026-01-01'), hours(999))
    const of = (state: 'in care' | 'died') => lines.filter(line => line.state === state)
    const add = (some: typeof lines) => [
      some.reduce((sum, { animals }) => sum + animals, 0),
      some.reduce((sum, { arrivals }) => sum + arrivals, 0),
    ]
    return { all: add(lines), inCare: add(of('in care')), died: add(of('died')) }
  }
  const before = await sums()
  // Eight animals of three arrivals came; two died, one of them the last of its arrival that was counted here.
  expect(before).toEqual({ all: [8, 3], inCare: [6, 3], died: [2, 0] })
  await moveSomeOfBatch(carer, 1, { count: '1', centreId: '2' }, next()).catch(() => undefined)
  await joinGroup(carer, 6, { withId: '1' }, next())
  expect(await sums()).toEqual(before)
  await takeBackGrouping(carer, 6, await lastLine(6), next())
  expect(await sums()).toEqual(before)
})

describe('two people at once', () => {
  it(`join and part: each animal is counted once, ${RACES} times`, async () => {
    const seen = new Set<string>()
    for (let n = 0; n < RACES; n++) {
      const at = next()
      await Promise.allSettled([
        joinGroup(carer, 6, { withId: '1' }, at),
        n % 2 === 0 ? joinGroup(carer, 1, { withId: '6' }, at) : partGroup(carer, 1, { count: '1' }, at),
        tellApart(carer, 2, { toldBy: `ring ${n}` }, at),
      ])
      const { rows } = await pool.query(
        `select count(*)::int as animals, count(distinct (batch_id, member_no))::int as numbers
           from casualty where id <= 6 and batch_id is not null`,
      )
      expect(rows[0].numbers).toBe(rows[0].animals)
      seen.add(await groups())
      const line = await lastLine(6)
      if (line !== undefined) await takeBackGrouping(carer, 6, line, next()).catch(() => undefined)
    }
    expect(seen.size).toBeGreaterThan(1)
  })
})
