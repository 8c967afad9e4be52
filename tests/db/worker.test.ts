import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import type pg from 'pg'
import { beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { alone } from '#lib/db/alone.ts'
import { findBacktest } from '#lib/db/backtest.ts'
import { findProgress } from '#lib/db/job-progress.ts'
import { findRun } from '#lib/db/learned.ts'
import { startWorker } from '#lib/jobs/worker.ts'
import { isLearningDue, LEARNING, learnWhenDue } from '#lib/service/learning-due.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { beginStage, LEARNING_PLAN, sayReady } from '#tests/support/learning-world.ts'

const { pool } = database
const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const DAY = 24
const days = (n: number) => hours(n * DAY)
const minutes = (n: number, from = NOON) => new Date(from.getTime() + n * 60_000)
const grant = demand(systemActor('test'), 'system.run')
const goOn = new AbortController().signal

async function onClient<T>(work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect()
  try {
    return await work(client)
  } finally {
    client.release()
  }
}

const runs = async () => (await pool.query('select count(*)::int as runs from learning_run')).rows[0].runs
const setClock = (at: Date) =>
  pool.query('insert into test_clock values (1, $1) on conflict (id) do update set at = $1', [at])
const learnAt = (at: Date) => learnWhenDue(async () => at, goOn)

describe('learning is due', () => {
  it('never before the network is set up', async () => {
    expect(await isLearningDue(NOON)).toBe(false)
    expect(await learnAt(NOON)).toBeUndefined()
  })

  it('when nothing was learned yet, and then not before there is more to learn', async () => {
    await onClient(async client => {
      await makeWorld(client)
      await client.query(LEARNING_PLAN)
      for (const animal of [1, 2, 3]) await beginStage(client, animal, days(-20 - animal))
    })
    expect(await isLearningDue(NOON)).toBe(true)
    expect(await learnAt(NOON)).toBe((await findRun(grant))?.id)
    expect(await isLearningDue(hours(6))).toBe(false)
    expect(await learnAt(hours(6))).toBeUndefined()
  })

  it('on the next day', async () => {
    expect(await isLearningDue(hours(10.9))).toBe(false)
    // Midnight in London, in summer.
    expect(await isLearningDue(hours(11))).toBe(true)
  })

  it('a quarter of an hour after the last run when a day before today was told of, and not for today', async () => {
    await onClient(client => sayReady(client, 1, hours(-1), minutes(1)))
    expect(await isLearningDue(minutes(16))).toBe(false)
    await onClient(client => sayReady(client, 2, days(-2), minutes(2)))
    expect(await isLearningDue(minutes(14))).toBe(false)
    expect(await isLearningDue(minutes(16))).toBe(true)
    await learnAt(minutes(16))
    expect(await isLearningDue(minutes(40))).toBe(false)
  })

  it('when setup changed a plan since, and not because a run was published', async () => {
    await pool.query('update care_plan_stage set ready_median_days = 7 where stage_no = 1')
    expect(await isLearningDue(minutes(40))).toBe(true)
    await learnAt(minutes(40))
    expect(await isLearningDue(minutes(60))).toBe(false)
  })
})

it('how far it is stands for pages to read while it lasts', async () => {
  await onClient(async client => {
    await client.query('begin')
    await client.query('lock table learning_run in share row exclusive mode')
    const learned = learnAt(hours(20))
    const progress = () => findProgress(grant, LEARNING)
    // Two steps for each of five stages; what is left is to publish.
    await expect
      .poll(progress, { timeout: 30_000 })
      .toEqual({ begunAt: hours(20), toldAt: hours(20), done: 10, outOf: 10 })
    await client.query('rollback')
    expect(await learned).toBeGreaterThan(0)
    expect(await progress()).toBeUndefined()
  })
})

describe('one process at a time', () => {
  it('does a work of one name, and the next may once it is over, well or not', async () => {
    let inner: unknown = 'not asked'
    await alone(grant, 'a', async () => {
      inner = await alone(grant, 'a', async () => 'both')
      expect(await alone(grant, 'b', async () => 'another')).toBe('another')
    })
    expect(inner).toBeUndefined()
    await expect(alone(grant, 'a', () => Promise.reject(new Error('no')))).rejects.toThrow('no')
    expect(await alone(grant, 'a', async () => 'again')).toBe('again')
  })
})

describe('the worker', () => {
  const faults: unknown[] = []
  const worker = () => startWorker({ onFault: fault => faults.push(fault), checkMs: 100 })

  beforeAll(() => setClock(days(10)))

  it('killed while it publishes leaves nothing of it, and the next start does it', async () => {
    const before = await runs()
    await onClient(async client => {
      await client.query('begin')
      await client.query('lock table learning_run in share row exclusive mode')
      const child = spawn(
        process.execPath,
        ['--conditions=react-server', '--import', 'tsx', 'lib/jobs/main.ts'],
        { cwd: ROOT, stdio: 'ignore', env: process.env },
      )
      const waits = async () =>
        (
          await pool.query(
            `select count(*)::int as waiting from pg_locks where not granted and relation = 'learning_run'::regclass`,
          )
        ).rows[0].waiting
      try {
        await expect.poll(waits, { timeout: 60_000 }).toBe(1)
      } finally {
        child.kill('SIGKILL')
        await once(child, 'exit')
        await client.query('rollback')
      }
    })
    expect(await runs()).toBe(before)
    const stop = await worker()
    await expect.poll(runs, { timeout: 30_000 }).toBe(before + 1)
    await stop()
  })

  it('beside another learns each thing once, leaves no word on how far it is, and stops when told', async () => {
    await setClock(days(11))
    const before = await runs()
    const stops = await Promise.all([worker(), worker()])
    await expect.poll(runs, { timeout: 30_000 }).toBe(before + 1)
    await setClock(days(12))
    await expect.poll(runs, { timeout: 30_000 }).toBe(before + 2)
    await Promise.all(stops.map(stop => stop()))
    expect(await runs()).toBe(before + 2)
    expect(await findProgress(grant, LEARNING)).toBeUndefined()
    expect(faults).toEqual([])
  })

  it('judges the forecast once nothing is left to learn', async () => {
    await setClock(days(60))
    const before = await runs()
    const stop = await worker()
    const judged = async () => (await findBacktest(grant))?.begunAt
    await expect.poll(judged, { timeout: 30_000 }).toEqual(days(60))
    await expect
      .poll(async () => (await findBacktest(grant))?.finishedAt, { timeout: 30_000 })
      .toEqual(days(60))
    await stop()
    expect(await runs()).toBe(before + 1)
    expect(faults).toEqual([])
  })
})
