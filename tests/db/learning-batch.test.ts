import { beforeAll, expect, it } from 'vitest'
import { type PersonActor, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listStageRecords } from '#lib/db/stage-record.ts'
import { recordOneOfBatch } from '#lib/service/batch.ts'
import { recordArrived } from '#lib/service/record.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { beginStage, LEARNING_PLAN } from '#tests/support/learning-world.ts'

const { pool } = database
const carer: PersonActor = {
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [{ role: 'carer', centreId: 2 }],
}
const DUCKLINGS = [1, 2, 3, 4]

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(LEARNING_PLAN)
  await client.query(`
    insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x');
    insert into batch (arrival_id) values (1);
    update casualty set batch_id = 1, member_no = id, arrival_id = 1 where id <= 4`)
  for (const id of DUCKLINGS) await recordArrived(carer, id, { centreId: '2' }, NOON)
  for (const id of DUCKLINGS) await beginStage(client, id, NOON)
  client.release()
})

it('each member of a group is a stay, and one of them that died is one that ended', async () => {
  await recordOneOfBatch(carer, 1, { alive: 'dead', whereNow: 'died by itself' }, hours(30))
  const rows = await listStageRecords(demand(systemActor('learning'), 'system.run'), hours(48))
  const stays = rows.filter(({ casualtyId }) => DUCKLINGS.includes(casualtyId))
  expect(stays).toHaveLength(DUCKLINGS.length)
  expect(stays.filter(({ outcome }) => outcome === 'died')).toHaveLength(1)
  expect(stays.filter(({ endedAt }) => endedAt === null)).toHaveLength(DUCKLINGS.length - 1)
  // Which one it was nobody knows: all of them began alike, so it makes no difference to what is learned.
  expect(new Set(stays.map(({ beganAt }) => beganAt.getTime())).size).toBe(1)
})
