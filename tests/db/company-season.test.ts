import { beforeAll, expect, it } from 'vitest'
import { tick } from '#lib/service/ticker.ts'
import { database } from '#tests/support/database.ts'
import { makeWorld, NOON, record } from '#tests/support/heart.ts'

const { pool } = database
const [FIRST, SECOND] = [10, 15] // blackbirds, adult
const E2 = 2 // two thrushes fit in
const APRIL = new Date('2026-04-02T12:00:00Z')
const FEBRUARY = new Date('2026-02-10T12:00:00Z')

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(`update species set adult_alone = 'season' where slug = 'blackbird'`)
  for (const casualty_id of [FIRST, SECOND]) {
    const fact = { casualty_id, since: FEBRUARY, keeper: 'centre', centre_id: 1, enclosure_id: E2 } as const
    await record(client, fact, FEBRUARY)
  }
  client.release()
})

const held = async (at: Date) =>
  (
    await pool.query(
      `select casualty_id as id, company_key as key from claim
        where enclosure_id = $1 and kind = 'stay' and state = 'live' and starts_at <= $2 and (ends_at is null or ends_at > $2)
        order by 1`,
      [E2, at],
    )
  ).rows

// Common practice, no source: adults of a species that breeds in pairs are kept apart from March to July.
it('parts adults of a seasonal species when they begin to breed, and leaves the nights before as they were', async () => {
  expect((await tick(FEBRUARY)).seasons).toBe(0)
  const together = [FIRST, SECOND].map(id => ({ id, key: 'thrushes' }))
  expect(await held(FEBRUARY)).toEqual(together)
  expect((await tick(APRIL)).seasons).toBe(2)
  expect(await held(APRIL)).toEqual([{ id: FIRST, key: `alone:${FIRST}` }])
  expect(await held(FEBRUARY)).toEqual(together)
  const { rows } = await pool.query(`select subject_id from audit where action = 'season' order by 1`)
  expect(rows).toEqual([{ subject_id: String(FIRST) }, { subject_id: String(SECOND) }])
})

it('puts them together again when it is over, once though several processes beat', async () => {
  const september = new Date('2026-09-02T12:00:00Z')
  const beats = await Promise.all([tick(september), tick(september)])
  expect(beats[0].seasons + beats[1].seasons).toBe(2)
  expect(await held(september)).toEqual([FIRST, SECOND].map(id => ({ id, key: 'thrushes' })))
  expect((await tick(NOON)).seasons).toBe(2)
})
