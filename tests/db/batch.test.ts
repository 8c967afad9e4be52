import { beforeAll, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { moveSomeOfBatch, recordOneOfBatch } from '#lib/service/batch.ts'
import { recordArrived } from '#lib/service/record.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'

const { pool } = database
const carer: PersonActor = {
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [{ role: 'carer', centreId: 2 }],
}
const DUCKLINGS = [1, 2, 3, 4, 5, 6]

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(`
    insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x');
    insert into batch (arrival_id) values (1);
    update casualty set batch_id = 1, member_no = id, arrival_id = 1 where id <= 6`)
  client.release()
  for (const id of DUCKLINGS) await recordArrived(carer, id, { centreId: '2' }, NOON)
})

const died = { alive: 'dead', whereNow: 'died by itself' }

async function inCare(): Promise<number[]> {
  const { rows } = await pool.query<{ id: number }>(
    `select casualty_id as id from whereabouts
      where until is null and keeper = 'centre' and casualty_id <= 6 order by casualty_id`,
  )
  return rows.map(({ id }) => id)
}

it('two who record at the same moment that one died leave four of six, the lowest stand for them', async () => {
  const both = await Promise.all([
    recordOneOfBatch(carer, 1, died, hours(1)),
    recordOneOfBatch(carer, 2, died, hours(1)),
  ])
  expect(both.map(({ made }) => made.id).sort()).toEqual([1, 2])
  expect(await inCare()).toEqual([3, 4, 5, 6])
})

it('stands for those in the same place only, says so on the record, and leads on to one that is left', async () => {
  await recordArrived(carer, 6, { centreId: '2', enclosureId: '7' }, hours(2))
  const { made } = await recordOneOfBatch(carer, 3, died, hours(3))
  expect(made).toEqual({ id: 3, left: { casualtyId: '4', reference: 'test 4' } })
  expect(await inCare()).toEqual([4, 5, 6])
  const { rows } = await pool.query('select casualty_id, words from note order by id')
  expect(rows.at(-1)).toEqual({ casualty_id: 3, words: 'One of the batch; which one is not known' })
})

it('is refused where no two are left to be mixed up', async () => {
  await expect(recordOneOfBatch(carer, 6, died, hours(4))).rejects.toMatchObject({
    rule: 'not-one-of-several',
  })
  await expect(recordOneOfBatch(carer, 9, died, hours(4))).rejects.toBeInstanceOf(Failure)
  expect(await inCare()).toEqual([4, 5, 6])
})

/** Where the three that are left are, by enclosure. */
async function byPlace(): Promise<unknown> {
  const { rows } = await pool.query(
    `select enclosure_id as place, count(*)::int as animals from whereabouts
      where until is null and keeper = 'centre' and casualty_id <= 6 group by 1 order by 1 nulls first`,
  )
  return rows.map(({ place, animals }) => [place, animals])
}

it('some of them move by count, and come together again', async () => {
  const move = (casualtyId: number, count: number, enclosureId: string, at: number) =>
    moveSomeOfBatch(carer, casualtyId, { count: String(count), centreId: '2', enclosureId }, hours(at))
  await recordArrived(carer, 6, { centreId: '2' }, hours(5))
  expect(await byPlace()).toEqual([[null, 3]])
  expect((await move(4, 2, '7', 6)).made).toEqual([5, 6])
  expect(await byPlace()).toEqual([
    [null, 1],
    [7, 2],
  ])
  await expect(move(5, 3, '8', 7)).rejects.toMatchObject({ rule: 'not-so-many-beside', field: 'count' })
  await expect(move(4, 1, '7', 7)).rejects.toMatchObject({ rule: 'not-one-of-several' })
  expect((await move(6, 2, '', 8)).made).toEqual([5, 6])
  expect(await byPlace()).toEqual([[null, 3]])
  const { rows } = await pool.query(
    `select count(distinct entry_id)::int as entries from keeping where since in ($1, $2)`,
    [hours(6), hours(8)],
  )
  expect(rows[0].entries).toBe(2)
})
