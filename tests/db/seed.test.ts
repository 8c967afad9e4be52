/**
 * The demonstration as `npm run seed` makes it, in a process of its own each time, at four dates of the year.
 * How long it may take is `npm run verify:seed`'s to judge.
 */
import { execFile } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import pg from 'pg'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { callFacts } from '#lib/domain/call-facts.ts'
import { dayOfInstant, shareOfDayLeft } from '#lib/domain/day.ts'
import { knowledge } from '#lib/domain/knowledge.ts'
import { housingState, networkTonight } from '#lib/domain/network-state.ts'
import type { RankedOptions } from '#lib/domain/option.ts'
import { tradeOf } from '#lib/domain/trade.ts'
import { forecast } from '#lib/forecast/forecast.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { answerFrom } from '#lib/service/option.ts'
import { WITHENHOLT } from '#seed/scenario/small-centres.ts'
import { LAST_CAGE } from '#seed/scenario/story.ts'
import { clone } from '#tests/support/database.ts'

const DATES = ['2026-01-15', '2026-04-20', '2026-07-10', '2026-11-25'] as const
const AGAIN = '2026-01-15'
const ZONE = 'Europe/London'
const CLAIMS = `select kind, casualty_id, keeping_id, closure_id, enclosure_id, place_no, company_key, starts_at, ends_at
  from claim where state = 'live' order by enclosure_id, starts_at, kind, place_no, keeping_id, company_key`

/** Tables, with the columns whose numbers depend on which of two people was first: entries, and what hangs on them. */
const FACTS: Readonly<Record<string, readonly string[]>> = {
  casualty: [],
  call: [],
  keeping: ['id', 'entry_id', 'first_id', 'supersedes'],
  claim: ['id', 'keeping_id', 'broken_by'],
  stage_fact: ['id', 'entry_id'],
  weight: ['id', 'entry_id', 'supersedes'],
  check_due: ['id', 'entry_id'],
}

type Made = { readonly client: pg.Client; readonly now: Date }
const made = new Map<string, Made>()
const open: pg.Client[] = []
afterAll(() => Promise.all(open.map(client => client.end())))

const SEEDING = ['--conditions=react-server', '--import', 'tsx', 'seed/seed.ts']
const root = fileURLToPath(new URL('../..', import.meta.url))

/** By name: each date, and one of them again. */
const WANTED: readonly (readonly [name: string, date: string])[] = [
  ...DATES.map(date => [date, date] as const),
  ['again', AGAIN],
]

async function seeded(url: string, date: string): Promise<Made> {
  await promisify(execFile)(process.execPath, [...SEEDING, `--today=${date}`], {
    cwd: root,
    env: { ...process.env, DATABASE_URL: url },
  })
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  open.push(client)
  return { client, now: new Date(`${date}T20:40:00Z`) }
}

beforeAll(async () => {
  const urls = await Promise.all(WANTED.map(() => clone()))
  await Promise.all(
    WANTED.map(async ([name, date], nth) => {
      made.set(name, await seeded(urls[nth] ?? '', date))
    }),
  )
}, 1_800_000)

function madeOn(date: string): Made {
  const found = made.get(date)
  if (found === undefined) throw new Error(`nothing was made: ${date}`)
  return found
}

/** What the desk would see: the same two snapshots, forecast and ranking that a call goes through. */
async function answerWaiting(client: pg.Client, now: Date): Promise<RankedOptions> {
  const read = async (sql: string, values: unknown[] = []) => (await client.query(sql, values)).rows[0]
  const seen = networkTonight.parse((await read('select network_snapshot($1) as it', [now])).it)
  const { enclosures } = housingState.parse((await read('select housing_snapshot() as it')).it)
  const state = { ...seen, enclosures }
  const trade = tradeOf(knowledge.parse((await read('select knowledge_snapshot() as it')).it))
  const today = dayOfInstant(now, ZONE)
  const shareOfTodayLeft = shareOfDayLeft(now, ZONE)
  const basis = forecastInput(state, trade, { today, horizonDays: 180, shareOfTodayLeft, asAt: now })
  const { facts } = await read(`select facts from call where state = 'parked' order by id limit 1`)
  const tonight = { state, trade, today, asAt: now, basis, forecast: forecast(basis.input) }
  const { ranked } = answerFrom(
    demand(systemActor('test'), 'call.read'),
    tonight,
    callFacts.parse(facts),
    now,
  )
  if (ranked === null) throw new Error('the waiting call lacks a fact')
  return ranked
}

const named = (ranked: RankedOptions) => ranked.options.map(option => option.to?.name)

describe.each(DATES)('the demonstration made on %s', date => {
  it('answers the waiting call with another centre than the nearest, because of one stay', async () => {
    const { client, now } = madeOn(date)
    const before = await answerWaiting(client, now)
    expect(before.options[0]?.isNearest).toBe(false)
    expect(before.options[0]?.kind).toBe('admit')
    const nearest = before.options.find(option => option.isNearest && option.kind === 'admit')
    expect(nearest?.to?.name).toBe(WITHENHOLT.name)
    // Nothing but room speaks against it: it is open, takes kestrels, has a heated unit tonight, needs no asking.
    expect(nearest?.shortTonight).toBe(0)
    expect(nearest?.askFirst).toBeNull()

    await client.query('begin')
    const { rows } = await client.query(
      `select w.casualty_id, k.entry_id from whereabouts w join keeping k on k.id = w.keeping_id
           join enclosure e on e.id = w.enclosure_id join centre c on c.id = e.centre_id
          where w.until is null and c.name = $1 and e.name = $2`,
      [WITHENHOLT.name, LAST_CAGE.stops.at(-1)?.enclosure],
    )
    expect(rows).toHaveLength(1)
    const gone = { ...rows[0], since: now, keeper: 'nobody', outcome: 'transferred out' }
    await client.query('select record_keeping($1::jsonb, $2)', [JSON.stringify(gone), now])
    const after = await answerWaiting(client, now)
    await client.query('rollback')
    expect(after.options[0]?.isNearest).toBe(true)
    expect(named(after)[0]).toBe(WITHENHOLT.name)
  })

  it('has all that the story needs', async () => {
    const { client } = madeOn(date)
    const { rows } = await client.query(
      `select (select count(*)::int from whereabouts where until is null and keeper <> 'nobody') as in_care,
              (select count(*)::int from referral r where closed_at is null
                and not exists (select from ask a where a.referral_id = r.id and a.state = 'yes')) as for_the_surgeon,
              (select count(*)::int from movement_stop where ends_at is null) as stops,
              (select count(*)::int from closure_effect) as closures,
              (select count(*)::int from against_the_rule) as against,
              (select demo_made_on::text from network) as made_on,
              (select count(*)::int from claim c join enclosure e on e.id = c.enclosure_id
                where c.state = 'live' and c.kind = 'stay' and c.ends_at is null and e.name like 'Ward cage%'
                  and e.centre_id = (select id from centre where name = $1)) as in_the_ward`,
      [WITHENHOLT.name],
    )
    const found = rows[0]
    expect(found).toMatchObject({
      for_the_surgeon: 1,
      stops: 1,
      closures: 1,
      against: 0,
      made_on: date,
      in_the_ward: 2,
    })
    expect(found.in_care).toBeGreaterThan(50)
  })

  it('has one of each that lies ahead or beside: a release, an operation, a joined group, a move set aside', async () => {
    const { client, now } = madeOn(date)
    const { rows } = await client.query(
      `select (select count(*)::int from release r join release_animal a on a.release_id = r.id
                join departure d on d.casualty_id = a.casualty_id and d.state = 'booked' and d.at = r.at
                where r.state = 'planned' and r.at > $1) as releases,
              (select count(*)::int from ask a join departure d on d.casualty_id = a.casualty_id and d.at = a.comes_at
                where a.practice_id is not null and a.state = 'yes' and a.comes_at > $1 and d.state = 'booked') as operations,
              (select count(*)::int from (select from membership m join casualty c on c.id = m.casualty_id
                 where m.kind = 'joined' and c.batch_id = m.batch_id
                 group by m.entry_id having count(distinct c.arrival_id) = 2 and count(distinct c.species_slug) = 1) g) as groups,
              (select count(*)::int from moves_aside($2)) as aside`,
      [now, date],
    )
    expect(rows).toEqual([{ releases: 1, operations: 1, groups: 1, aside: 1 }])
  })

  it('tells its last fortnight one by one, each with who did it, and takes options of recent calls', async () => {
    const { client, now } = madeOn(date)
    const { rows } = await client.query(
      `select (select count(*)::int from decision where at > $1::timestamptz - interval '14 days') as decisions,
              (select count(*)::int from decision where jsonb_array_length(options->'options') < 2) as without_choice,
              (select count(*)::int from unmet_demand) as unmet,
              (select count(*)::int from call) as calls,
              (select count(*)::int from call where state = 'parked') as aside,
              (select count(*)::int from audit where at < $1::timestamptz - interval '15 days') as audited_before,
              (select count(*)::int from entry e where e.entered_at > $1::timestamptz - interval '14 days'
                and e.entered_by is null
                and not exists (select from audit a where a.at = e.entered_at and a.actor_words = 'driver by link')) as by_nobody,
              (select count(distinct at)::int from audit where actor_words = 'driver by link') as by_link,
              (select count(*)::int from entry where entered_at > $1) as ahead`,
      [now],
    )
    expect(rows[0]).toMatchObject({
      without_choice: 0,
      unmet: 2,
      aside: 4,
      audited_before: 0,
      by_nobody: 0,
      // A driver has no account: the first leg of the journey was taken up through its link.
      by_link: 1,
      ahead: 0,
    })
    expect(rows[0].decisions).toBeGreaterThanOrEqual(12)
    expect(rows[0].calls).toBeGreaterThanOrEqual(20)
  })

  it('balances for every species, cause and centre', async () => {
    const { client } = madeOn(date)
    // Every casualty is in exactly one state now: in care, or one outcome (trade: "small worked invariant", common practice).
    const { rows } = await client.query(
      `select c.species_slug, count(*)::int as admitted,
              count(*) filter (where w.keeper = 'nobody')::int as ended,
              count(*) filter (where w.keeper <> 'nobody')::int as in_care
         from casualty c join whereabouts w on w.casualty_id = c.id and w.until is null group by 1`,
    )
    const total = (await client.query('select count(*)::int as n from casualty')).rows[0].n
    expect(rows.reduce((sum, row) => sum + row.admitted, 0)).toBe(total)
    for (const row of rows) expect(row.ended + row.in_care).toBe(row.admitted)
  })
})

describe('the batch', () => {
  it('left the claims that the database works out from the facts itself', async () => {
    const { client, now } = madeOn('2026-04-20')
    await client.query('begin')
    // The smaller centres whole; the hospital's rooms differ from theirs in number only.
    const { rows } = await client.query(
      `select e.id from enclosure e join centre c on c.id = e.centre_id where c.name = any ($1)`,
      [[WITHENHOLT.name, 'Lanternhay', 'Osterskeld Seal and Seabird Unit']],
    )
    const ids = rows.map(row => row.id)
    const ofThese = async () =>
      (await client.query(CLAIMS)).rows.filter(row => ids.includes(row.enclosure_id))
    const before = await ofThese()
    expect(before.length).toBeGreaterThan(3000)
    await client.query(`select settle($1, '-infinity', $2)`, [ids, now])
    expect(await ofThese()).toEqual(before)
    await client.query('rollback')
  })

  it('tells the same facts when made again on the same day', async () => {
    const read = async (client: pg.Client) => {
      const found: Record<string, unknown> = {}
      for (const [table, numbers] of Object.entries(FACTS)) {
        // The entry as who entered it when, since the fortnight is told side by side.
        const entry = numbers.includes('entry_id') ? 'entry_id' : 'null'
        const fact = `(to_jsonb(t) - '{${numbers}}'::text[] || jsonb_build_object('entered_at', e.entered_at, 'entered_by', e.entered_by))::text`
        const { rows } = await client.query(
          `select count(*)::int as rows, md5(string_agg(${fact}, '|' order by ${fact})) as hash
             from ${table} t left join entry e on e.id = ${entry}`,
        )
        found[table] = rows[0]
      }
      return found
    }
    const [a, b] = [madeOn(AGAIN), madeOn('again')]
    expect(await read(a.client)).toEqual(await read(b.client))
  })
})
