/** An animal recorded late into a cage where another one still stands: the fact stays, and the correction is at hand. */
import { beforeAll, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { getCasualtyNow } from '#lib/db/casualty.ts'
import { listFirstIn } from '#lib/db/late-facts.ts'
import { recordMoved } from '#lib/service/record.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, record } from '#tests/support/heart.ts'

const { pool } = database
const [FIRST, SECOND, CAGE, OTHER] = [13, 18, 1, 2] as const
const desk: PersonActor = { kind: 'person', personId: 1, name: 'One', roles: [{ role: 'coordinator' }] }
const grant = demand(systemActor('test'), 'casualty.read')
const short = async (id: number) => (await getCasualtyNow(grant, id, hours(3))).short

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(`insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x')`)
  const facts = [
    [FIRST, -72, -72],
    [SECOND, -48, 0],
  ] as const
  for (const [animal, since, entered] of facts) {
    await record(
      client,
      { casualty_id: animal, since: hours(since), keeper: 'centre', enclosure_id: CAGE },
      hours(entered),
    )
  }
  client.release()
})

it('says who was in first, until its leaving is recorded; then the place is the newcomer’s', async () => {
  expect([await short(FIRST), await short(SECOND)]).toEqual([null, 'full'])
  expect(await listFirstIn(grant, FIRST)).toEqual([])
  const [found, ...more] = await listFirstIn(grant, SECOND)
  expect(more).toEqual([])
  expect(found).toMatchObject({ since: hours(-72) })
  await recordMoved(desk, FIRST, { since: hours(-48), enclosureId: String(OTHER) }, hours(2))
  expect([await short(FIRST), await short(SECOND)]).toEqual([null, null])
  expect(await listFirstIn(grant, SECOND)).toEqual([])
})
