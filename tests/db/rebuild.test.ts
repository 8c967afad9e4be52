import type pg from 'pg'
import { beforeAll, expect, it } from 'vitest'
import { seededRandom } from '#lib/numerics/random.ts'
import { clone, database } from '#tests/support/database.ts'
import { type Fact, hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { connect } from '#tests/support/heart-connect.ts'
import { type Walk, walk } from '#tests/support/heart-walk.ts'

const IS_FULL = process.env['ROOSTWRIGHT_FULL'] === '1'
const SEEDS = IS_FULL ? [11, 12, 13, 14, 15, 16] : [11, 12]
const OPERATIONS = IS_FULL ? 1500 : 160
const WRITERS = 6
const MINUTES_MAX = 10

beforeAll(async () => {
  const client = await database.pool.connect()
  await makeWorld(client)
  client.release()
})

/** Stays and drying as they stand, one line each. */
async function claims(client: pg.ClientBase, until: Date): Promise<string[]> {
  const { rows } = await client.query<{ line: string }>(
    `select concat_ws(' ', kind, keeping_id, enclosure_id, place_no, company_key, starts_at, least(ends_at, $1)) as line
       from claim where state = 'live' and kind in ('stay', 'closure') and starts_at < $1 order by 1`,
    [until],
  )
  return rows.map(row => row.line)
}

/** What stands now, and what stands after forgetting every claim but the promises and working it out again. */
async function bothWays(client: pg.ClientBase, at: Date): Promise<{ now: string[]; rebuilt: string[] }> {
  await client.query('begin')
  await client.query('select settle(array_agg(id), $1, $1) from enclosure', [at])
  const now = await claims(client, at)
  await client.query(`delete from claim where state = 'live' and kind <> 'hold'`)
  await client.query(`select settle(array_agg(id), '-infinity', $1) from enclosure`, [at])
  const rebuilt = await claims(client, at)
  await client.query('rollback')
  return { now, rebuilt }
}

function expectHealthy(result: Walk): void {
  expect(result.refusedFacts).toEqual([])
  expect(result.surprises).toEqual([])
  expect(result.facts).toBeGreaterThan(50)
  expect(Object.keys(result.refusedPlans).length).toBeGreaterThan(1)
}

it.each(SEEDS)(
  'working every claim out again gives what was built up step by step (seed %i)',
  async seed => {
    const client = await connect(await clone())
    try {
      await makeWorld(client)
      const result = await walk(client, seededRandom(seed), OPERATIONS, NOON)
      expectHealthy(result)
      const { now, rebuilt } = await bothWays(client, result.at)
      expect(now.length).toBeGreaterThan(20)
      expect(rebuilt).toEqual(now)
    } finally {
      await client.end()
    }
  },
  MINUTES_MAX * 60_000,
)

it(
  'and so it does when several write at once',
  async () => {
    const writers = await Promise.all(Array.from({ length: WRITERS }, () => connect(database.url)))
    try {
      const results = await Promise.all(
        writers.map((client, nth) => walk(client, seededRandom(100 + nth), Math.ceil(OPERATIONS / 3), NOON)),
      )
      for (const result of results) {
        expect(result.refusedFacts).toEqual([])
        expect(result.surprises).toEqual([])
      }
      const [first] = writers
      const { now, rebuilt } = await bothWays(first!, hours(24 * 365))
      expect(rebuilt).toEqual(now)
      const { rows } = await first!.query(
        `select count(*)::int as facts,
                count(*) filter (where e.revision is null)::int as unnumbered,
                (select revision from network) - max(e.revision) as ahead
           from keeping k join entry e on e.id = k.entry_id`,
      )
      expect(rows[0].facts).toBeGreaterThan(100)
      expect(rows[0].unnumbered).toBe(0)
    } finally {
      await Promise.all(writers.map(client => client.end()))
    }
  },
  MINUTES_MAX * 60_000,
)

/** Facts in the order in which they were entered, a third of them late. */
function drawHistory(random: () => number, count: number): { fact: Fact; at: Date }[] {
  const whole = (n: number) => 1 + Math.floor(random() * n)
  let at = NOON
  return Array.from({ length: count }, () => {
    at = hours(random() * 4, at)
    const since = random() < 0.66 ? at : hours(-random() * 60, at)
    const casualty_id = whole(40)
    const fact: Fact =
      random() < 0.2
        ? { casualty_id, since, keeper: 'nobody', outcome: 'released' }
        : { casualty_id, since, keeper: 'centre', enclosure_id: whole(8) }
    return { fact, at }
  })
}

/** Who had a proper place when, whatever its number. */
async function covered(client: pg.ClientBase, until: Date): Promise<string[]> {
  const { rows } = await client.query<{ line: string }>(
    `select concat_ws(' ', casualty_id, enclosure_id, range_agg(tstzrange(starts_at, least(ends_at, $1)))) as line
       from claim where state = 'live' and kind = 'stay' and starts_at < $1
      group by casualty_id, enclosure_id order by 1`,
    [until],
  )
  return rows.map(row => row.line)
}

it(
  'a history in bulk, with its original times of entry, covers what single entries cover',
  async () => {
    const history = drawHistory(seededRandom(7), OPERATIONS)
    const last = history.at(-1)!.at
    const [single, bulk] = await Promise.all([connect(await clone()), connect(await clone())])
    try {
      await Promise.all([makeWorld(single), makeWorld(bulk)])
      for (const { fact, at } of history) await record(single, fact, at)
      await bulk.query('begin')
      const { rows } = await bulk.query<{ ids: number[] }>('select open_history($1, $2, $3) as ids', [
        history.map(({ at }) => at),
        history.map(() => null),
        'test',
      ])
      const facts = history.map(({ fact }, nth) => ({ ...fact, entry_id: rows[0]!.ids[nth] }))
      await bulk.query('select record_history($1, $2)', [JSON.stringify(facts), last])
      await bulk.query('commit')
      await single.query('select settle(array_agg(id), $1, $1) from enclosure', [last])
      expect(await covered(bulk, last)).toEqual(await covered(single, last))
      const revision = (client: pg.Client) => client.query('select revision from network')
      expect((await revision(bulk)).rows).toEqual((await revision(single)).rows)
    } finally {
      await Promise.all([single.end(), bulk.end()])
    }
  },
  MINUTES_MAX * 60_000,
)
