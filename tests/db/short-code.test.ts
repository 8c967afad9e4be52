import { beforeAll, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { enterOnRound } from '#lib/service/round-entry.ts'
import { chooseOwnCode, findActorByCode } from '#lib/service/short-code.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const one: PersonActor = {
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [{ role: 'carer', centreId: 1 }],
}
const from = (minutes: number, address = '203.0.113.9') => ({
  address,
  now: new Date(NOON.getTime() + minutes * 60_000),
})

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
  await chooseOwnCode(one, { initials: 'on', shortCode: '4071' }, NOON)
})

it('keeps a hash and no code, and the audit no value', async () => {
  const { rows } = await pool.query('select initials, code_hash from person where id = 1')
  expect(rows[0].initials).toBe('ON')
  expect(rows[0].code_hash).toMatch(/^\$argon2id\$/)
  const audit = await pool.query(`select * from audit where action = 'short code chosen'`)
  expect(audit.rows).toHaveLength(1)
  expect(JSON.stringify(audit.rows)).not.toContain('4071')
})

it('whoever gives initials and code enters in her own name with her own rights', async () => {
  const actor = await findActorByCode({ initials: 'On', shortCode: '4071' }, from(1))
  expect(actor).toMatchObject({ personId: 1, roles: [{ role: 'carer', centreId: 1 }] })
  const tap = { key: 'shared-key', centreId: '1', tap: 'counted' }
  const { entry } = await enterOnRound(actor, tap, hours(1))
  expect(entry.byId).toBe(1)
  await expect(enterOnRound(actor, { ...tap, centreId: '2' }, hours(1))).rejects.toMatchObject({
    code: 'not-found',
  })
})

it('unknown initials and a wrong code answer alike', async () => {
  const wrong = { code: 'rule', rule: 'short-code-unknown', field: 'shortCode' }
  await expect(findActorByCode({ initials: 'ON', shortCode: '4072' }, from(2))).rejects.toMatchObject(wrong)
  await expect(findActorByCode({ initials: 'XX', shortCode: '4071' }, from(2))).rejects.toMatchObject(wrong)
})

it('tries in a row wait, the right one too', async () => {
  const elsewhere = '203.0.113.44'
  for (let n = 0; n < 5; n++) {
    await findActorByCode({ initials: 'ON', shortCode: '9090' }, from(10, elsewhere)).catch(() => undefined)
  }
  await expect(
    findActorByCode({ initials: 'ON', shortCode: '4071' }, from(10, elsewhere)),
  ).rejects.toMatchObject({ rule: 'sign-in-wait', field: 'shortCode' })
  expect((await findActorByCode({ initials: 'ON', shortCode: '4071' }, from(11, elsewhere))).personId).toBe(1)
})

it('whoever is switched off is nobody here', async () => {
  await pool.query('update person set is_active = false where id = 1')
  await expect(findActorByCode({ initials: 'ON', shortCode: '4071' }, from(30))).rejects.toMatchObject({
    rule: 'short-code-unknown',
  })
})
