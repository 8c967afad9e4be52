import type pg from 'pg'
import { beforeAll, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listArrivalRecords } from '#lib/db/arrival-record.ts'
import { findRun } from '#lib/db/learned.ts'
import { listArrivalNumbers, readLearnedArrivals } from '#lib/db/learned-arrivals.ts'
import { readRevisions } from '#lib/db/snapshot.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import { learn, MODEL_VERSION } from '#lib/service/learn.ts'
import { readTonight } from '#lib/service/network.ts'
import { readRecords } from '#lib/service/records.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { LEARNING_PLAN } from '#tests/support/learning-world.ts'

const { pool } = database
const grant = demand(systemActor('test'), 'system.run')
const reader = demand(systemActor('test'), 'forecast.read')
const day = (n: number) => hours(24 * n)

async function onClient<T>(work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect()
  try {
    return await work(client)
  } finally {
    client.release()
  }
}
const come = (animal: number, at: Date, centre: number) =>
  onClient(client => record(client, { casualty_id: animal, since: at, keeper: 'centre', centre_id: centre }))

const sendElsewhere = async (at: Date, group: string, animals: number) => {
  const { rows } = await pool.query<{ id: number }>('insert into call (opened_at) values ($1) returning id', [
    at,
  ])
  await pool.query(
    `insert into unmet_demand (call_id, at, kind, group_slug, animals, reason) values ($1, $2, 'redirect', $3, $4, 'full')`,
    [rows[0]!.id, at, group, animals],
  )
  return rows[0]!.id
}

/** What animals still to come are expected to need. */
const ANY_REASON_PLAN = `
insert into condition (slug, name, kind, applies_to, default_urgency, mark_urgency, quarantine)
  values ('any-reason', 'Any reason', 'reason', 'both', 'today', 'x', 'none');
insert into care_plan (id, condition_slug, plan_group_slug, severity, treatment)
  values ('any-reason.any-bird.any.none', 'any-reason', 'any-bird', 'any', 'none');
insert into care_plan_stage (plan_id, stage_no, stage, housing_type, ready_median_days, ready_p90_days, goes_on_means, goes_on,
    died, euthanased, left_care, died_median_days, died_p90_days, euthanased_median_days, euthanased_p90_days) values
  ('any-reason.any-bird.any.none', 1, 'restricted activity', 'hospital-cage', 6, 14, 'x', 0.8, 0.1, 0.06, 0.04, 2, 9, 3, 9);
`

beforeAll(async () => {
  await onClient(async client => {
    await makeWorld(client)
    await client.query(LEARNING_PLAN)
    await client.query(ANY_REASON_PLAN)
    await client.query(`insert into year_arrivals (centre_id, group_slug, animals_per_year, month_shares, event_sizes, mark)
      values (1, 'small-birds', 36.525, array_fill(1.0/12, array[12]), '{1}', 't')`)
  })
  // Animals 2 and 3 came in one box, animal 4 in another, both small birds; animal 8 is a kestrel.
  await come(2, day(-30), 1)
  await come(3, day(-30), 1)
  await come(4, day(-20), 2)
  await come(8, day(-10), 1)
})

const recordsNow = async () => listArrivalRecords(grant, NOON, (await readRevisions(grant)).revision)

it('an arrival is read once, whatever number came in it, at its first centre', async () => {
  const rows = await recordsNow()
  expect(rows.map(({ group, centreId, animals }) => [group, centreId, animals])).toEqual([
    ['small-birds', 1, 2],
    ['small-birds', 2, 1],
    ['falcons', 1, 1],
  ])
  const plans = await pool.query('select plan_ids as "planIds" from casualty_plan where casualty_id = 2')
  expect(rows[0]?.planIds).toEqual(plans.rows.at(-1)?.planIds ?? null)
  await come(4, day(-15), 1)
  expect((await recordsNow())[1]).toMatchObject({ centreId: 2, at: day(-20) })
})

it('what was entered after a revision is not of it', async () => {
  const { revision } = await readRevisions(grant)
  const before = await listArrivalRecords(grant, NOON, revision)
  await come(12, day(-5), 1)
  expect(await listArrivalRecords(grant, NOON, revision)).toEqual(before)
  expect(await recordsNow()).toHaveLength(before.length + 1)
})

it('who was sent elsewhere counts, unless it came after all', async () => {
  const before = await recordsNow()
  const call = await sendElsewhere(day(-8), 'small-birds', 3)
  const after = await recordsNow()
  expect(after).toHaveLength(before.length + 1)
  expect(after).toContainEqual({
    at: day(-8),
    group: 'small-birds',
    centreId: null,
    animals: 3,
    planIds: null,
    young: null,
  })
  await pool.query('insert into arrival (at, call_id) values ($1, $2)', [day(-7), call])
  expect(await recordsNow()).toHaveLength(before.length)
})

it('a run publishes arrivals by group, and the forecast expects them', async () => {
  const plain = await readTonight(NOON)
  expect(plain.trade.arrivals.size).toBe(0)
  expect(plain.trade.source).toBeNull()
  const id = await learn(NOON)
  const { rates, doubts } = await readLearnedArrivals(grant)
  expect(rates.map(({ group }) => group)).toEqual(['falcons', 'small-birds'])
  for (const { run, from, eventsPerDay, sizes, shares, mix } of rates) {
    expect(mix.summer.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
    expect([run, from]).toEqual([String(id), dayOfDate('2026-06-10')])
    expect(eventsPerDay).toHaveLength(360)
    expect(eventsPerDay.every(events => events > 0)).toBe(true)
    expect(sizes.young.reduce((a, b) => a + b)).toBeCloseTo(1, 12)
    expect(shares.summer.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
  }
  expect(doubts.length).toBeGreaterThan(0)
  const tonight = await readTonight(NOON)
  expect([...tonight.trade.arrivals.keys()]).toEqual(['falcons', 'small-birds'])
  expect(tonight.trade.doubts).toEqual(doubts)
  expect(tonight.trade.source).toMatchObject({ run: id, modelVersion: MODEL_VERSION })
  const numbers = await listArrivalNumbers(reader, id!)
  expect(numbers.map(({ group, events }) => [group, events])).toEqual([
    ['small-birds', 3],
    ['falcons', 1],
  ])
})

it('the page names the groups of which somebody came, the most first', async () => {
  const shown = await readRecords({
    kind: 'person',
    personId: 1,
    name: 'A',
    roles: [{ role: 'manager' }],
  })
  expect(shown?.arrivals.map(({ name, events, refused }) => [name, events, refused])).toEqual([
    ['Small birds', 3, 0],
    ['Falcons', 1, 0],
  ])
})

it('a season of refusals does not lower what is expected: it raises it, as animals that came would', async () => {
  const eventsOf = async () => {
    const { rates } = await readLearnedArrivals(grant)
    return rates.find(({ group }) => group === 'small-birds')!.eventsPerDay[0]!
  }
  const before = await eventsOf()
  for (let n = 1; n <= 12; n++) await sendElsewhere(day(-n - 0.2), 'small-birds', 1)
  const id = await learn(hours(1))
  expect(await eventsOf()).toBeGreaterThan(1.1 * before)
  expect((await listArrivalNumbers(reader, id!))[0]).toMatchObject({ group: 'small-birds', refused: 12 })
})

it('says the same of the same records, to the last digit', async () => {
  const before = await findRun(grant)
  const rates = await readLearnedArrivals(grant)
  await learn(hours(2))
  expect((await findRun(grant))?.digest).toBe(before?.digest)
  const again = await readLearnedArrivals(grant)
  for (const [i, { eventsPerDay, shares }] of again.rates.entries()) {
    expect(eventsPerDay).toEqual(rates.rates[i]!.eventsPerDay)
    expect(shares).toEqual(rates.rates[i]!.shares)
  }
})
