import { beforeAll, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listSuspects } from '#lib/db/companion.ts'
import { recordCheck } from '#lib/service/record-stay.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const CHICK = 14
const coordinator = { kind: 'person', personId: 1, name: 'One', roles: [{ role: 'coordinator' }] } as const

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

it('leaves out whoever is suspected of a disease', async () => {
  await pool.query('update casualty set is_disease_suspect = true where id = $1', [CHICK])
  const grant = demand(systemActor('test'), 'casualty.read')
  expect(await listSuspects(grant, [CHICK, 15])).toEqual([CHICK])
})

it('is looked for every day until one is found, and then no more', async () => {
  const { rows } = await pool.query<{ id: number }>(
    `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, due_on, interval_days)
     values ($1, 1, 'companion', 'x', 'carer', 'CP', '2026-06-10', 1) returning id`,
    [CHICK],
  )
  const open = async () =>
    (
      await pool.query<{ id: number; due_on: string }>(
        `select id, due_on::text from check_due where casualty_id = $1 and check_slug = 'companion' and done_at is null`,
        [CHICK],
      )
    ).rows
  await recordCheck(coordinator, rows[0]!.id, { passed: 'no' }, NOON)
  const [again] = await open()
  expect(again?.due_on).toBe('2026-06-11')
  await recordCheck(coordinator, again!.id, { passed: 'yes' }, hours(24))
  expect(await open()).toEqual([])
})
