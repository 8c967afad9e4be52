/**
 * Placements racing for the same places: plans, departures and outcomes from many connections at once, from one seed.
 * Each connection draws its own stream, so that what is tried does not depend on who is faster.
 */
import pg from 'pg'
import { seededRandom } from '#lib/numerics/random.ts'

const HORIZON_HOURS = 24 * 40
const STAY_HOURS_MAX = 24 * 4
const PLACES_EACH = 4
const SHARE_OF_DEPARTURES = 0.12
const AT = new Date('2026-06-10T12:00:00Z')

export type RaceSize = { readonly places: number; readonly placements: number; readonly connections: number }
export type RaceResult = {
  readonly won: number
  readonly lost: Readonly<Record<string, number>>
  readonly departures: number
  /** What was neither won nor refused by a named rule. */
  readonly failed: readonly string[]
  readonly doubled: number
  readonly seconds: number
  /** Milliseconds of each write, sorted. */
  readonly writes: readonly number[]
}

/** A quarter of the places is taken by stays without an end; twice as many animals wait as there are places. */
export async function makeRace(client: pg.ClientBase, { places }: RaceSize): Promise<void> {
  const enclosures = Math.ceil(places / PLACES_EACH)
  await client.query(
    `with made as (
       insert into enclosure (room_id, centre_id, name, housing_type, size_rank, width_m, length_m, height_m, walking_order)
       select 4, 2, 'Race ' || n, 'hospital-cage', 3, 1, 1, 1, n from generate_series(1, $1::int) n returning id)
     insert into stocking (enclosure_id, company_slug, places) select id, 'thrushes', $2 from made`,
    [enclosures, PLACES_EACH],
  )
  await client.query(
    `insert into casualty (reference, given_on, arrival_id, species_slug, age, company_slug)
     select 'race ' || n, '2026-06-01', 1 + n % 40, 'blackbird', 'adult', 'thrushes' from generate_series(1, $1::int) n`,
    [places * 3],
  )
  const { rows } = await client.query<{ id: number }>(
    `insert into entry (entered_at) values ($1) returning id`,
    [AT],
  )
  await client.query(
    `with e as (select id, row_number() over (order by id) as no from enclosure where name like 'Race %'),
          a as (select id, row_number() over (order by id) as no from casualty where reference like 'race %')
     select record_history((select jsonb_agg(jsonb_build_object('entry_id', $1::int, 'casualty_id', a.id,
       'since', timestamptz '2026-06-01', 'keeper', 'centre', 'enclosure_id', e.id, 'place_no', 1))
       from e join a on a.no = e.no), $2)`,
    [rows[0]?.id, AT],
  )
  await client.query('select close_entry($1)', [rows[0]?.id])
  await client.query('analyze')
}

/** Past stays, one after another in each place of the race, as many as a network of some years has. */
export async function makeHistory(client: pg.ClientBase, animals: number): Promise<void> {
  const { rows } = await client.query<{ first: number }>(
    `with made as (
       insert into casualty (reference, given_on, arrival_id, species_slug, age, company_slug)
       select 'past ' || n, '2023-01-01', 1 + n % 40, 'blackbird', 'adult', 'thrushes' from generate_series(0, $1::int - 1) n
       returning id)
     select min(id)::int as first from made`,
    [animals],
  )
  await client.query(
    `with place as (
       select e.id as enclosure, p as place, (row_number() over (order by e.id, p) - 1)::int as slot, (count(*) over ())::int as slots
         from enclosure e, generate_series(2, ${PLACES_EACH}) p where e.name like 'Race %'),
     stay as (
       select $1::int + n as casualty, place.*, timestamptz '2024-01-01' + (n / slots) * interval '10 days' as since
         from generate_series(0, $2::int - 1) n join place on slot = n % slots),
     fact as (
       select casualty, since - interval '1 hour' as at, 'finder' as keeper, null::int as enclosure, null::int as place, null as outcome from stay
       union all select casualty, since, 'centre', enclosure, place, null from stay
       union all select casualty, since + interval '8 days', 'nobody', null, null, 'released' from stay),
     entry as (
       select (select open_history(array_agg(at order by at), array_agg(null::int), 'past') from fact) as ids)
     select record_history(
       (select jsonb_agg(jsonb_build_object('entry_id', ids[no], 'casualty_id', casualty, 'since', at, 'keeper', keeper,
          'enclosure_id', enclosure, 'place_no', place, 'outcome', outcome))
          from (select *, row_number() over (order by at) as no from fact) f, entry), $3)`,
    [rows[0]?.first, animals, AT],
  )
  await client.query('analyze')
}

/** Milliseconds of each of so many mixed writes by one person after another, sorted: moves, holds, departures. */
export async function writesInTurn(
  client: pg.ClientBase,
  count: number,
  work: (kind: 'move' | 'hold' | 'departure', nth: number) => Promise<unknown>,
): Promise<number[]> {
  const kinds = ['move', 'hold', 'departure'] as const
  const writes: number[] = []
  for (let nth = 0; nth < count; nth++) {
    const began = performance.now()
    await client.query('begin')
    try {
      await work(kinds[nth % 3] ?? 'move', nth)
      await client.query('select bump()')
      await client.query('commit')
    } catch (thrown) {
      await client.query('rollback')
      // A refused plan is a write as well: somebody waited for it.
      if (!/constraint "/.test((thrown as Error).message)) throw thrown
    }
    writes.push(performance.now() - began)
  }
  return writes.sort((a, b) => a - b)
}

/** Runs it and counts what came of it. */
export async function race(url: string, size: RaceSize, seed: number): Promise<RaceResult> {
  const pool = new pg.Pool({ connectionString: url, max: size.connections })
  try {
    const { rows: enclosures } = await pool.query<{ id: number }>(
      `select id from enclosure where name like 'Race %' order by id`,
    )
    const { rows: animals } = await pool.query<{ id: number }>(
      `select id from casualty where reference like 'race %' order by id`,
    )
    const since = performance.now()
    const runs = await Promise.all(
      Array.from({ length: size.connections }, async (_, nth) =>
        runOne(pool, {
          random: seededRandom(seed + nth),
          placements: Math.ceil(size.placements / size.connections),
          enclosures: enclosures.map(row => row.id),
          animals: animals.map(row => row.id),
        }),
      ),
    )
    const seconds = (performance.now() - since) / 1000
    return { ...merge(runs), seconds, doubled: await countDoubled(pool) }
  } finally {
    await pool.end()
  }
}

/** Pairs of live claims on one place at one time. */
async function countDoubled(pool: pg.Pool): Promise<number> {
  const { rows } = await pool.query<{ count: number }>(
    `select count(*)::int as count from claim a join claim b
        on a.id < b.id and a.enclosure_id = b.enclosure_id and a.place_no = b.place_no
       and tstzrange(a.starts_at, a.ends_at) && tstzrange(b.starts_at, b.ends_at)
     where a.state = 'live' and b.state = 'live'`,
  )
  return rows[0]?.count ?? -1
}

type Work = {
  readonly random: () => number
  readonly placements: number
  readonly enclosures: readonly number[]
  readonly animals: readonly number[]
}
type Run = {
  won: number
  departures: number
  readonly lost: Record<string, number>
  readonly failed: string[]
  readonly writes: number[]
}

async function runOne(pool: pg.Pool, { random, placements, enclosures, animals }: Work): Promise<Run> {
  const run: Run = { won: 0, departures: 0, lost: {}, failed: [], writes: [] }
  const client = await pool.connect()
  const pick = (list: readonly number[]) => list[Math.floor(random() * list.length)] ?? 0
  const hour = (n: number) => new Date(AT.getTime() + n * 3_600_000)
  let tried = 0
  try {
    while (tried < placements) {
      const isDeparture = random() < SHARE_OF_DEPARTURES
      const began = performance.now()
      try {
        await client.query('begin')
        if (isDeparture) {
          // Of the animals that are in: the first ones, one an enclosure.
          const who = pick(animals.slice(0, enclosures.length))
          await client.query('select book_departure(null, $1, $2, $3)', [who, hour(1 + random() * 200), AT])
          run.departures++
        } else {
          tried++
          const from = random() * HORIZON_HOURS
          const until = from + 1 + random() * STAY_HOURS_MAX
          await client.query('select plan_hold($1, $2, $3, $4, $5, $4, $5, false, null, $6)', [
            pick(animals),
            pick(enclosures),
            1 + Math.floor(random() * PLACES_EACH),
            hour(from),
            hour(until),
            AT,
          ])
        }
        await client.query('select bump()')
        await client.query('commit')
        if (!isDeparture) run.won++
      } catch (thrown) {
        await client.query('rollback')
        note(run, thrown)
      }
      run.writes.push(performance.now() - began)
    }
  } finally {
    client.release()
  }
  return run
}

function note(run: Run, thrown: unknown): void {
  const error = thrown as { code?: string; constraint?: string; message: string }
  const name = error.constraint ?? /constraint "([a-z0-9_]+)"/.exec(error.message)?.[1]
  if (name === undefined || !['23P01', '23514', '23505'].includes(error.code ?? ''))
    run.failed.push(error.message)
  else run.lost[name] = (run.lost[name] ?? 0) + 1
}

function merge(runs: readonly Run[]): Omit<RaceResult, 'seconds' | 'doubled'> {
  const lost: Record<string, number> = {}
  for (const run of runs) for (const [name, n] of Object.entries(run.lost)) lost[name] = (lost[name] ?? 0) + n
  return {
    won: runs.reduce((sum, run) => sum + run.won, 0),
    departures: runs.reduce((sum, run) => sum + run.departures, 0),
    lost,
    failed: runs.flatMap(run => run.failed),
    writes: runs.flatMap(run => run.writes).sort((a, b) => a - b),
  }
}

/** The value below which this share of sorted values lies. */
export function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN
}
