import { createHash } from 'node:crypto'
import type pg from 'pg'
import { beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { type PersonActor, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findBacktest } from '#lib/db/backtest.ts'
import { originsToJudge } from '#lib/domain/backtest.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import { chancesBySeries } from '#lib/forecast/present-demand.ts'
import { askForBacktest, cancelBacktest } from '#lib/service/backtest.ts'
import { forecastOf } from '#lib/service/judge-origin.ts'
import { readTruth } from '#lib/service/judge-truth.ts'
import { isBacktestDue, judgeWhenDue } from '#lib/service/judging.ts'
import { learn } from '#lib/service/learn.ts'
import { readState } from '#lib/service/network.ts'
import { database } from '#tests/support/database.ts'
import { NOON, record } from '#tests/support/heart.ts'
import { ANIMALS, days, FIRST, makeJudgedWorld } from '#tests/support/judging-world.ts'
import { sayReady } from '#tests/support/learning-world.ts'

const { pool } = database
const grant = demand(systemActor('test'), 'system.run')
const manager: PersonActor = { kind: 'person', personId: 1, name: 'One', roles: [{ role: 'manager' }] }
const TODAY = dayOfDate('2026-06-10')
const CAGES = '1:hospital-cage|3'
const goOn = new AbortController().signal
const judgeAt = (at: Date, signal = goOn) => judgeWhenDue(async () => at, signal)
/** All scores as one short text. */
const judged = async () =>
  createHash('sha256')
    .update(JSON.stringify((await findBacktest(grant))?.judged))
    .digest('hex')

async function onClient<T>(work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect()
  try {
    return await work(client)
  } finally {
    client.release()
  }
}

/** Judges, and does something else once the first day is judged but not kept yet. */
async function judgeAnd(judging: () => Promise<void>, act: () => Promise<void>): Promise<void> {
  await onClient(async client => {
    await client.query('begin; lock table backtest_origin in share row exclusive mode')
    const waiting = async () =>
      (
        await pool.query(
          `select count(*)::int as n from pg_locks where not granted and relation = 'backtest_origin'::regclass`,
        )
      ).rows[0].n
    const going = judging()
    try {
      await expect.poll(waiting, { timeout: 30_000 }).toBe(1)
      await act()
    } finally {
      await client.query('rollback')
    }
    await going
  })
}

beforeAll(() => onClient(makeJudgedWorld))

/** How many came within two weeks after a day. */
const cameAfter = (origin: number) =>
  Array.from({ length: ANIMALS }, (_, i) => TODAY - FIRST + 11 * i).filter(
    day => day > origin && day <= origin + 14,
  ).length

let atOneGo = ''

describe('a run', () => {
  it('is not due before anything was learned', async () => {
    expect(await isBacktestDue(NOON)).toBe(false)
    await judgeAt(NOON)
    expect(await findBacktest(grant)).toBeUndefined()
    await learn(NOON)
    expect(await isBacktestDue(NOON)).toBe(true)
  })

  it('judges each day of the grid, the newest first, and ends', async () => {
    await judgeAt(NOON)
    const run = await findBacktest(grant)
    expect(run?.finishedAt).toEqual(NOON)
    expect(run?.origins).toEqual(originsToJudge(TODAY - FIRST, TODAY))
    expect(run?.judged.map(({ origin }) => origin)).toEqual(run?.origins)
    expect(run?.origins).toHaveLength(3)
    // What came is known up to yesterday: a day, a week, four weeks later.
    expect(run?.judged.map(({ horizons }) => horizons.map(one => one.pairs > 0))).toEqual([
      [true, false, false, false],
      [true, true, false, false],
      [true, true, true, false],
    ])
    // One animal came every eleven days, and no stage began later than with it.
    expect(run?.judged.map(({ stays }) => stays?.length)).toEqual(run?.origins.map(cameAfter))
    atOneGo = await judged()
  })

  it('is due again after four weeks', async () => {
    expect(await isBacktestDue(days(27.9))).toBe(false)
    expect(await isBacktestDue(days(28))).toBe(true)
  })
})

describe('the same run', () => {
  beforeEach(() => askForBacktest(manager, NOON))

  it('stopped after a day and gone on with has the same scores to the last digit', async () => {
    const stop = new AbortController()
    const stopped = judgeAnd(
      () => judgeAt(NOON, stop.signal),
      async () => stop.abort(new Error('stopped')),
    )
    await expect(stopped).rejects.toThrow('stopped')
    const run = await findBacktest(grant)
    expect(run?.judged).toHaveLength(1)
    expect(run?.finishedAt).toBeNull()
    await judgeAt(NOON)
    expect(await judged()).toBe(atOneGo)
  })

  it('is judged by one of two workers, the other leaves it', async () => {
    await Promise.all([judgeAt(NOON), judgeAt(NOON)])
    expect(await judged()).toBe(atOneGo)
    expect((await findBacktest(grant))?.finishedAt).toEqual(NOON)
  })

  it('waits while learning is due', async () => {
    await judgeAt(days(1))
    expect(await findBacktest(grant)).toMatchObject({ judged: [], finishedAt: null, cancelledAt: null })
    await judgeAt(NOON)
    expect(await judged()).toBe(atOneGo)
  })

  it('cancelled meanwhile keeps what it judged and does no more', async () => {
    await judgeAnd(
      () => judgeAt(NOON),
      () => cancelBacktest(manager, NOON),
    )
    const run = await findBacktest(grant)
    expect(run).toMatchObject({ cancelledAt: NOON, finishedAt: null })
    expect(run?.judged).toHaveLength(1)
    expect(await isBacktestDue(NOON)).toBe(false)
  })

  it('begun by another version of the method is ended, and begun anew', async () => {
    await pool.query(
      `update backtest set model_version = 'another' where finished_at is null and cancelled_at is null`,
    )
    const another = await findBacktest(grant)
    await judgeAt(NOON)
    const { rows } = await pool.query('select cancelled_at from backtest where id = $1', [another?.id])
    expect(rows).toEqual([{ cancelled_at: NOON }])
    expect(await judged()).toBe(atOneGo)
  })
})

describe('what is entered later', () => {
  const [, origin = 0] = originsToJudge(TODAY - FIRST, TODAY)
  const forecastThen = async () => {
    const { state, trade } = await readState(NOON)
    const chances = chancesBySeries((await forecastOf(grant, state, trade, origin, {})).made)
    return [0, 6, 27, 89].map(day => [...chances(CAGES, day)])
  }
  const truth = async () => {
    const known = await readState(NOON)
    const { revision } = known.state
    const span = { from: TODAY - FIRST, asOf: TODAY, revision }
    return [...((await readTruth(grant, known, span)).counts.get(CAGES) ?? [])]
  }

  it('changes what came, and no forecast of an earlier day', async () => {
    const [forecast, came] = [await forecastThen(), await truth()]
    // A robin, alone in its cage for good, is told to have died a hundred days ago; another was ready long ago.
    await onClient(async client => {
      await record(client, { casualty_id: 4, since: days(-100), keeper: 'nobody', outcome: 'died' }, NOON)
      await sayReady(client, 9, days(-120), NOON)
    })
    expect(await forecastThen()).toEqual(forecast)
    const comes = await truth()
    const died = FIRST - 100
    expect(comes.slice(0, died)).toEqual(came.slice(0, died))
    expect(comes.slice(died)).toEqual(came.slice(died).map(count => count - 1))
  })

  it('would change the forecast of that day had it been entered by then', async () => {
    const forecast = await forecastThen()
    await onClient(client =>
      record(client, { casualty_id: 14, since: days(-100), keeper: 'nobody', outcome: 'died' }, days(-99)),
    )
    expect(await forecastThen()).not.toEqual(forecast)
  })
})
