import type pg from 'pg'
import { expect, it } from 'vitest'
import { seededRandom } from '#lib/numerics/random.ts'
import { constraintWords } from '#lib/words/constraint.ts'
import { clone, database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { connect } from '#tests/support/heart-connect.ts'
import { makeHistory, makeRace, quantile, type RaceResult, race, writesInTurn } from '#tests/support/race.ts'

const IS_FULL = process.env['ROOSTWRIGHT_FULL'] === '1'
const SIZE = IS_FULL
  ? { places: 400, placements: 10_000, connections: 32 }
  : { places: 40, placements: 1000, connections: 32 }
const SEED = 20_261_125
const MINUTES_MAX = IS_FULL ? 10 : 3

const LATENCY_WRITES = IS_FULL ? 900 : 90
/** Each with three facts: about what the demonstration knows. */
const PAST_ANIMALS = IS_FULL ? 10_000 : 1000
/** The goal for one write on a quiet machine; beside other tests it is told, not judged. */
const GOAL_MS = { p95: 100, p99: 300 }

async function runRace(url: string, prepare: (client: pg.Client) => Promise<unknown>): Promise<RaceResult> {
  const client = await connect(url)
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
  'writes in time beside a long history, one person after another',
  async () => {
    const client = await connect(await clone())
    try {
      await makeWorld(client)
      await makeRace(client, SIZE)
      await makeHistory(client, PAST_ANIMALS)
      const { rows } = await client.query<{ casualty: number; enclosure: number }>(
        `select casualty_id as casualty, enclosure_id as enclosure from whereabouts where until is null and keeper = 'centre'`,
      )
      const random = seededRandom(SEED)
      const draw = () => rows[Math.floor(random() * rows.length)]!
      const writes = await writesInTurn(client, LATENCY_WRITES, (kind, nth) => {
        const at = hours(1 + nth / 60, NOON)
        const [{ casualty }, { enclosure }] = [draw(), draw()]
        if (kind === 'move') {
          const fact = {
            entry_id: 1,
            casualty_id: casualty,
            since: hours(-random() * 3, at),
            keeper: 'centre',
            enclosure_id: enclosure,
          }
          return client.query('select record_keeping($1, $2)', [JSON.stringify(fact), at])
        }
        if (kind === 'departure') {
          return client.query('select book_departure(null, $1, $2, $3)', [casualty, hours(30, at), at])
        }
        return client.query('select plan_hold($1, $2, null, $3, $4, $3, $4, false, null, $5)', [
          casualty,
          enclosure,
          hours(2, at),
          hours(20, at),
          at,
        ])
      })
      const { rows: known } = await client.query('select count(*)::int as facts from keeping')
      print(`one writer, ${known[0].facts} facts known`, writes)
      expect(known[0].facts).toBeGreaterThan(PAST_ANIMALS * 3)
      if (!IS_FULL) return
      expect(quantile(writes, 0.95)).toBeLessThan(GOAL_MS.p95)
      expect(quantile(writes, 0.99)).toBeLessThan(GOAL_MS.p99)
    } finally {
      await client.end()
    }
  },
  MINUTES_MAX * 60_000,
)
