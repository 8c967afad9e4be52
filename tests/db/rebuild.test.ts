import type pg from 'pg'
import { beforeAll, expect, it } from 'vitest'
import { seededRandom } from '#lib/numerics/random.ts'
import { clone, database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
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
