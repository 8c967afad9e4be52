import pg from 'pg'
import { expect, it } from 'vitest'
import { constraintWords } from '#lib/words/constraint.ts'
import { clone, database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { makeRace, quantile, type RaceResult, race } from '#tests/support/race.ts'

const IS_FULL = process.env['ROOSTWRIGHT_FULL'] === '1'
const SIZE = IS_FULL
  ? { places: 400, placements: 10_000, connections: 32 }
  : { places: 40, placements: 1000, connections: 32 }
const SEED = 20_261_125
const MINUTES_MAX = IS_FULL ? 10 : 2

const LATENCY_WRITES = IS_FULL ? 600 : 60
/** The goal for one write on a quiet machine; a machine that runs other tests at once gets ten times as long. */
const GOAL_MS = IS_FULL ? { p95: 100, p99: 300 } : { p95: 1000, p99: 3000 }

async function runRace(url: string, prepare: (client: pg.Client) => Promise<unknown>): Promise<RaceResult> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    await makeWorld(client)
    await makeRace(client, SIZE)
    await prepare(client)
    return await race(url, SIZE, SEED)
  } finally {
    await client.end()
  }
}

function print(what: string, writes: readonly number[], seconds?: number): void {
  const [p50, p95, p99] = [0.5, 0.95, 0.99].map(share => quantile(writes, share).toFixed(1))
  const rate = seconds === undefined ? '' : `, ${(writes.length / seconds).toFixed(0)}/s`
  process.stdout.write(`${what}: median ${p50} ms, 95 % ${p95} ms, 99 % ${p99} ms${rate}\n`)
}

it(
  'gives each place to one animal at a time, and every loser a sentence',
  async () => {
    const result = await runRace(database.url, async () => undefined)
    const losers = Object.entries(result.lost)
    const lost = losers.reduce((sum, [, n]) => sum + n, 0)
    print(`${SIZE.connections} connections flat out`, result.writes, result.seconds)
    process.stdout.write(
      `${result.won} placed, ${lost} refused (${losers.map(([name, n]) => `${name} ${n}`).join(', ')}), ${result.departures} departures, ${result.doubled} doubled, ${result.seconds.toFixed(1)} s\n`,
    )
    expect(result.failed).toEqual([])
    expect(result.doubled).toBe(0)
    expect(result.won + lost).toBeGreaterThanOrEqual(SIZE.placements)
    expect(result.won).toBeGreaterThanOrEqual(SIZE.placements / 5)
    expect(lost).toBeGreaterThanOrEqual(SIZE.placements / 5)
    expect(result.departures).toBeGreaterThan(0)
    expect(losers.filter(([name]) => constraintWords(name) === undefined)).toEqual([])
  },
  MINUTES_MAX * 60_000,
)

it(
  'double-books without the constraint: the race above could have failed',
  async () => {
    const result = await runRace(await clone(), client =>
      client.query('alter table claim drop constraint claim_place_taken_once'),
    )
    expect(result.failed).toEqual([])
    expect(result.doubled).toBeGreaterThan(0)
  },
  MINUTES_MAX * 60_000,
)

it(
  'writes a fact after the race, one at a time',
  async () => {
    const writes: number[] = []
    for (let n = 0; n < LATENCY_WRITES; n++) {
      const client = await database.pool.connect()
      const began = performance.now()
      await record(
        client,
        { casualty_id: 1 + (n % 40), since: hours(n / 60), keeper: 'centre', enclosure_id: 1 + (n % 8) },
        hours(n / 60, NOON),
      )
      writes.push(performance.now() - began)
      client.release()
    }
    writes.sort((a, b) => a - b)
    print('one writer', writes)
    expect(quantile(writes, 0.95)).toBeLessThan(GOAL_MS.p95)
    expect(quantile(writes, 0.99)).toBeLessThan(GOAL_MS.p99)
  },
  MINUTES_MAX * 60_000,
)
