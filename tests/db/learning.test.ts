import type pg from 'pg'
import { beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import {
  findLearnedCurve,
  findRun,
  type Learned,
  type LearnedStageRow,
  type LearningRun,
  publishRun,
  readLearned,
  readLearnedPage,
} from '#lib/db/learned.ts'
import { readRevisions } from '#lib/db/snapshot.ts'
import { listStageRecords } from '#lib/db/stage-record.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import { learn } from '#lib/service/learn.ts'
import { database } from '#tests/support/database.ts'
import { hours, inTestEntry, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { beginStage, LEARNING_PLAN, sayReady } from '#tests/support/learning-world.ts'

const { pool } = database
const DAY = 24
const CELL = 'cat.any-bird.any.none|1'
const KEYS = [
  CELL,
  ...['autumn', 'spring', 'summer', 'winter'].map(season => `cat.any-bird.any.none|2|${season}`),
]
const grant = demand(systemActor('test'), 'system.run')
const reader = demand(systemActor('test'), 'forecast.read')
const days = (n: number) => hours(n * DAY)

async function onClient<T>(work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect()
  try {
    return await work(client)
  } finally {
    client.release()
  }
}

const count = async () =>
  (
    await pool.query(`select (select count(*)::int from learning_run) as runs,
    (select count(*)::int from learned_stage) as stages, (select knowledge_revision from network) as knowledge`)
  ).rows[0]

beforeAll(() =>
  onClient(async client => {
    await makeWorld(client)
    await client.query(LEARNING_PLAN)
    for (const animal of [1, 2, 3, 4]) await beginStage(client, animal, days(-20 - animal))
    await sayReady(client, 1, days(-14))
    await sayReady(client, 2, days(-12))
  }),
)

describe('learning', () => {
  it('reads nothing before the first run, and publishes one with a cell for every stage of every plan', async () => {
    expect(await readLearned(grant)).toEqual([])
    expect(await readLearnedPage(reader)).toBeUndefined()
    const before = await readRevisions(grant)
    const id = await learn(NOON)
    expect(await findRun(grant)).toMatchObject({
      id,
      asOf: dayOfDate('2026-06-10'),
      learnedAt: NOON,
      revision: before.revision,
      cells: 5,
      animals: 4,
    })
    const learned = await readLearned(grant)
    expect(learned.map(({ key }) => key)).toEqual(KEYS)
    for (const { run, days: of, died, euthanased, left, passes, beyond } of learned) {
      expect(run).toBe(String(id))
      for (const numbers of [died, euthanased, left, passes]) {
        expect(numbers).toHaveLength(of)
        expect(numbers.every(chance => chance >= 0 && chance <= 1)).toBe(true)
      }
      expect(beyond.onward + beyond.died + beyond.euthanased + beyond.left).toBeCloseTo(1, 12)
    }
  })

  it('moves the knowledge revision and not the network’s, so that what is kept of knowledge is read anew', async () => {
    const before = await readRevisions(grant)
    await learn(hours(1))
    expect(await readRevisions(grant)).toEqual({
      revision: before.revision,
      knowledgeRevision: before.knowledgeRevision + 1,
    })
  })

  it('says the same of the same records', async () => {
    const before = await findRun(grant)
    await learn(hours(2))
    expect(await findRun(grant)).toMatchObject({ digest: before?.digest, inputsDigest: before?.inputsDigest })
  })

  it('says something else of the cell in which a stay ended, once that day is over', async () => {
    const before = await findRun(grant)
    const chances = async () => (await readLearned(grant)).find(({ key }) => key === CELL)?.passes
    const passes = await chances()
    await onClient(client => sayReady(client, 3, hours(2), hours(3)))
    await learn(hours(3))
    expect((await findRun(grant))?.digest).toBe(before?.digest)
    await onClient(client => sayReady(client, 4, days(-1), hours(4)))
    await learn(hours(5))
    expect((await findRun(grant))?.digest).not.toBe(before?.digest)
    expect((await chances())?.[23]).toBeGreaterThan(passes![23]!)
  })

  it('publishes one run of two that were begun together', async () => {
    const before = await count()
    const ids = await Promise.all([learn(hours(6)), learn(hours(6))])
    expect(ids.filter(id => id === undefined)).toHaveLength(1)
    expect(await count()).toMatchObject({ runs: before.runs + 1, knowledge: before.knowledge + 1 })
  })

  it('stops between two steps when told, and publishes nothing', async () => {
    const before = await count()
    const told: number[] = []
    const stop = new AbortController()
    const onStep = async (done: number) => {
      told.push(done)
      if (done === 2) stop.abort(new Error('told to stop'))
    }
    await expect(learn(hours(7), { onStep, signal: stop.signal })).rejects.toThrow('told to stop')
    expect(told).toEqual([1, 2])
    expect(await count()).toEqual(before)
  })
})

const run = (change: Partial<LearningRun> = {}): LearningRun => ({
  modelVersion: 'test',
  asOf: dayOfDate('2026-06-10'),
  learnedAt: NOON,
  revision: 1,
  knowledgeRevision: 1,
  planWeight: 20,
  seed: 1,
  animals: 3,
  inputsDigest: '0'.repeat(64),
  digest: '1'.repeat(64),
  ...change,
})

/** Numbers that a careless way would round. */
const ODD = Float64Array.of(0.1 + 0.2, 5e-324, 1 / 3)
const stage = (key: string, change: Partial<LearnedStageRow> = {}): LearnedStageRow => ({
  key,
  planIds: ['p'],
  stageNo: 1,
  condition: 'cat',
  season: 'autumn',
  estimate: {
    stage: 'overwintering',
    ready: { kind: 'length', length: { medianDays: 6, p90Days: 14 } },
    shares: { onward: 1, died: 0, euthanased: 0, left: 0 },
    died: { medianDays: 2, p90Days: 9 },
    euthanased: { medianDays: 2, p90Days: 9 },
  },
  animals: 3,
  stretch: { mean: 1.4, low: 1.2, high: 1.6 },
  earlyOdds: 1,
  lean: 0.5,
  hazards: {
    days: 3,
    died: ODD,
    euthanased: ODD,
    left: ODD,
    passes: ODD,
    beyond: { onward: 0.7, died: 0.1, euthanased: 0.1, left: 0.1 },
  },
  curve: { opens: 4, plan: ODD, learned: ODD, low: ODD, high: ODD, atRisk: ODD },
  ...change,
})
const of = (stages: readonly LearnedStageRow[]): Learned => ({ stages, arrivals: [], doubts: [] })
const newest = async () => (await findRun(grant))?.id ?? null

describe('publishing', () => {
  it('keeps every digit, and what a page shows', async () => {
    const id = await publishRun(grant, run(), of([stage('a'), stage('b', { season: null })]), await newest())
    const { hazards, curve, ...numbers } = stage('a')
    expect((await readLearned(grant))[0]).toEqual({ key: 'a', run: String(id), ...hazards })
    expect(await findLearnedCurve(reader, id, 'a')).toEqual(curve)
    expect(await findLearnedCurve(reader, id, 'c')).toBeUndefined()
    const page = await readLearnedPage(reader)
    expect(page?.run.id).toBe(id)
    expect(page?.cells[0]).toEqual({ ...numbers, earlier: null })
    expect(page?.cells[1]?.season).toBeNull()
  })

  it('refused half-way leaves everything as it was', async () => {
    const before = await count()
    const bad = stage('b', { hazards: { ...stage('b').hazards, died: Float64Array.of(0, 0) } })
    await expect(publishRun(grant, run(), of([stage('a'), bad]), await newest())).rejects.toMatchObject({
      rule: 'learned_stage_hazards_have_its_days',
    })
    expect(await count()).toEqual(before)
  })

  it('is refused after another run', async () => {
    const before = await count()
    await expect(publishRun(grant, run(), of([stage('a')]), null)).rejects.toMatchObject({ code: 'conflict' })
    expect(await count()).toEqual(before)
  })

  it('keeps the newest ten and the first of each of thirteen months, and compares with a month ago', async () => {
    await pool.query('delete from learning_run')
    const weeks = Array.from({ length: 70 }, (_, week) => dayOfDate('2025-03-01') + 7 * week)
    for (const [week, asOf] of weeks.entries()) {
      const mean = 1 + week / 100
      await publishRun(
        grant,
        run({ asOf }),
        of([stage('a', { stretch: { mean, low: 0.5, high: 3 } })]),
        await newest(),
      )
    }
    const { rows } = await pool.query<{ day: string }>(
      'select as_of::text as day from learning_run order by id',
    )
    const kept = rows.map(row => row.day)
    // 2026-06-27 is the last: ten weeks back to 25 April, before them the first run of each month from June 2025 on.
    expect(kept.slice(-10)[0]).toBe('2026-04-25')
    expect(kept.slice(0, -10)).toEqual([
      '2025-06-07',
      '2025-07-05',
      '2025-08-02',
      '2025-09-06',
      '2025-10-04',
      '2025-11-01',
      '2025-12-06',
      '2026-01-03',
      '2026-02-07',
      '2026-03-07',
      '2026-04-04',
    ])
    const page = await readLearnedPage(reader)
    expect(page?.earlierAsOf).toBe(dayOfDate('2026-05-30'))
    expect(page?.cells[0]).toMatchObject({ stretch: { mean: 1.69 }, earlier: { mean: 1.65 } })
  })
})

describe('records as they were known at a revision', () => {
  it('leave out what was entered since, and have what was corrected since', async () => {
    const { revision } = await readRevisions(grant)
    const before = await listStageRecords(grant, days(9))
    await onClient(async client => {
      await beginStage(client, 6, days(-3))
      await inTestEntry(client, days(1), entry =>
        client.query(
          `insert into stage_fact (entry_id, casualty_id, stage_no, kind, at, supersedes)
           select $1, casualty_id, stage_no, kind, at - interval '2 days', id from stage_fact where casualty_id = 1 and kind = 'ready'`,
          [entry],
        ),
      )
      await record(client, { casualty_id: 2, since: days(0), keeper: 'nobody', outcome: 'died' }, days(1))
    })
    expect(await listStageRecords(grant, days(9), revision)).toEqual(before)
    const after = await listStageRecords(grant, days(9))
    expect(after).toHaveLength(before.length + 1)
    expect(after.find(({ casualtyId }) => casualtyId === 1)?.readyAt).toEqual(days(-16))
    expect(after.find(({ casualtyId }) => casualtyId === 2)?.outcome).toBe('died')
  })
})
