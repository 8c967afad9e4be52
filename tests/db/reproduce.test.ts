import type pg from 'pg'
import { beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findRun } from '#lib/db/learned.ts'
import { learn } from '#lib/service/learn.ts'
import { reproduce } from '#lib/service/reproduce.ts'
import { database } from '#tests/support/database.ts'
import { hours, inTestEntry, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { beginStage, LEARNING_PLAN, sayReady } from '#tests/support/learning-world.ts'

const { pool } = database
const CELL = 'cat.any-bird.any.none|1'
const grant = demand(systemActor('test'), 'system.run')
const days = (n: number) => hours(24 * n)
const SAME = { areRecordsSame: true, otherKeys: [] }

async function onClient<T>(work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect()
  try {
    return await work(client)
  } finally {
    client.release()
  }
}

let first = 0

beforeAll(async () => {
  await onClient(async client => {
    await makeWorld(client)
    await client.query(LEARNING_PLAN)
    for (const animal of [1, 2, 3, 4, 5]) await beginStage(client, animal, days(-20 - animal))
    await sayReady(client, 1, days(-14))
    await sayReady(client, 2, days(-12))
  })
  first = (await learn(NOON))!
})

describe('a run learned again', () => {
  it('is the same, whole and by one of its stages', async () => {
    expect(await reproduce(first)).toMatchObject({ run: first, ...SAME, isDigestSame: true })
    const one = await reproduce(first, CELL)
    expect(one).toMatchObject({ ...SAME, isDigestSame: null })
    expect(one.again.map(({ key }) => key)).toEqual([CELL])
  })

  it('is the same after more was entered, corrected and learned, and another plan set up', async () => {
    const before = await findRun(grant, first)
    await onClient(async client => {
      await sayReady(client, 3, days(-10), hours(1))
      await record(client, { casualty_id: 4, since: days(-9), keeper: 'nobody', outcome: 'died' }, hours(1))
      await inTestEntry(client, hours(2), entry =>
        client.query(
          `insert into stage_fact (entry_id, casualty_id, stage_no, kind, at, supersedes)
           select $1, casualty_id, stage_no, kind, at - interval '3 days', id from stage_fact where casualty_id = 1 and kind = 'ready'`,
          [entry],
        ),
      )
      await client.query('update care_plan_stage set ready_median_days = 9 where stage_no = 1')
    })
    const second = await learn(days(1))
    expect((await findRun(grant))?.digest).not.toBe(before?.digest)
    expect(await reproduce(first)).toMatchObject({ ...SAME, isDigestSame: true })
    expect(await reproduce(second!)).toMatchObject({ ...SAME, isDigestSame: true })
  })

  it('is told apart where one digit of one day was changed, by the stage', async () => {
    await pool.query(
      `update learned_stage set passes = set_byte(passes, 80, get_byte(passes, 80) # 1) where run_id = $1 and key = $2`,
      [first, CELL],
    )
    expect(await reproduce(first)).toMatchObject({
      areRecordsSame: true,
      otherKeys: [CELL],
      isDigestSame: true,
    })
    expect((await reproduce(first, CELL)).otherKeys).toEqual([CELL])
  })

  it('is told apart where other records went in', async () => {
    await pool.query(`update learning_run set inputs_digest = repeat('0', 64), digest = repeat('0', 64)`)
    expect(await reproduce(first)).toMatchObject({ areRecordsSame: false, isDigestSame: false })
  })

  it('that is not kept is not found, nor is a stage that it has not', async () => {
    await expect(reproduce(first + 99)).rejects.toMatchObject({ code: 'not-found' })
    await expect(reproduce(first, 'no such|1')).rejects.toMatchObject({ code: 'not-found' })
  })
})
