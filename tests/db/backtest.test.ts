import type pg from 'pg'
import { beforeAll, describe, expect, it } from 'vitest'
import { type PersonActor, type Role, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findBacktest, finishBacktest, isBacktestOpen, keepJudged } from '#lib/db/backtest.ts'
import { originsToJudge } from '#lib/domain/backtest.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import type { JudgedOrigin } from '#lib/domain/judged-forecast.ts'
import { askForBacktest, cancelBacktest } from '#lib/service/backtest.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { refusal } from '#tests/support/refusal.ts'

const { pool } = database
const days = (n: number) => hours(24 * n)
const grant = demand(systemActor('test'), 'system.run')
const as = (role: Role): PersonActor => ({ kind: 'person', personId: 1, name: 'One', roles: [{ role }] })
const manager = as('manager')
const TODAY = dayOfDate('2026-06-10')

async function onClient<T>(work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect()
  try {
    return await work(client)
  } finally {
    client.release()
  }
}

beforeAll(() =>
  onClient(async client => {
    await makeWorld(client)
    await client.query(
      `insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x')`,
    )
  }),
)

describe('asked for by a person', () => {
  it('is for managers', async () => {
    expect(await refusal(askForBacktest(as('coordinator'), NOON))).toBe('forbidden')
    expect(await refusal(askForBacktest(as('administrator'), NOON))).toBe('forbidden')
    expect(await refusal(cancelBacktest(as('coordinator'), NOON))).toBe('forbidden')
    expect(await findBacktest(grant)).toBeUndefined()
  })

  it('begins with no day to judge where nothing is on record', async () => {
    await askForBacktest(manager, NOON)
    expect(await findBacktest(grant)).toMatchObject({
      begunAt: NOON,
      asOf: TODAY,
      historyFrom: null,
      origins: [],
      judged: [],
      cancelledAt: null,
      finishedAt: null,
    })
  })

  it('is one at a time, and cancelled by a person', async () => {
    expect(await refusal(askForBacktest(manager, hours(1)))).toBe('conflict backtest_one_open')
    await cancelBacktest(manager, hours(2))
    expect(await findBacktest(grant)).toMatchObject({ cancelledAt: hours(2), finishedAt: null })
    expect(await refusal(cancelBacktest(manager, hours(3)))).toBe('conflict backtest-not-open')
    const { rows } = await pool.query(`select action from audit where subject = 'backtest' order by id`)
    expect(rows.map(row => row.action)).toEqual(['backtest begun', 'backtest cancelled'])
  })

  it('judges the days since something was both recorded and entered', async () => {
    await onClient(client =>
      record(client, { casualty_id: 1, since: days(-800), keeper: 'centre', enclosure_id: 1 }, days(-400)),
    )
    await askForBacktest(manager, hours(4))
    const run = await findBacktest(grant)
    expect(run?.historyFrom).toBe(TODAY - 400)
    expect(run?.origins).toEqual(originsToJudge(TODAY - 400, TODAY))
    expect(run?.origins.length).toBeGreaterThan(10)
  })
})

describe('what was judged', () => {
  const judgedAs = (origin: number, crps: number): JudgedOrigin => ({
    origin,
    horizons: [
      {
        horizon: 1,
        pairs: 3,
        coverage: 2.1,
        crps,
        pinball: [5e-324, 1 / 3],
        pit: [1, 0.1 + 0.2],
        rivals: [
          {
            name: 'same as today',
            pairs: 3,
            ours: 1,
            theirs: 1.7976931348623157e308,
            coverage: 2,
            needsDays: 0,
          },
        ],
      },
    ],
  })

  it('is kept to the last digit, once, the newest day first', async () => {
    const run = (await findBacktest(grant))!
    const [newer = 0, older = 0] = run.origins
    await keepJudged(grant, run.id, judgedAs(older, 0.1), hours(5))
    await keepJudged(grant, run.id, judgedAs(newer, 1e-9), hours(5))
    await keepJudged(grant, run.id, judgedAs(older, 0.1), hours(6))
    await keepJudged(grant, run.id, judgedAs(older, 0.2), hours(6))
    expect((await findBacktest(grant))?.judged).toEqual([judgedAs(newer, 1e-9), judgedAs(older, 0.1)])
  })

  it('stays when the run is cancelled, and a cancelled run is never finished', async () => {
    const { id } = (await findBacktest(grant))!
    expect(await isBacktestOpen(grant, id)).toBe(true)
    await cancelBacktest(manager, hours(7))
    expect(await refusal(finishBacktest(grant, id, hours(8)))).toBe('conflict backtest-not-open')
    expect(await isBacktestOpen(grant, id)).toBe(false)
    const run = await findBacktest(grant)
    expect(run).toMatchObject({ cancelledAt: hours(7), finishedAt: null })
    expect(run?.judged).toHaveLength(2)
  })

  it('is kept of the newest three runs', async () => {
    for (const n of [9, 10, 11]) {
      await askForBacktest(manager, hours(n))
      const { id } = (await findBacktest(grant))!
      await finishBacktest(grant, id, hours(n))
    }
    const { rows } = await pool.query(
      'select (select count(*)::int from backtest) as runs, (select count(*)::int from backtest_origin) as days',
    )
    expect(rows).toEqual([{ runs: 3, days: 0 }])
    expect((await findBacktest(grant))?.finishedAt).toEqual(hours(11))
  })
})
