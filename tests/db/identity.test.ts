/**
 * "released + died + ... + in care = admitted" for every species, cause and centre on every day, animals and arrivals
 * apart (trade 9, worked invariant: common practice), over random histories with late entries, corrections and entries
 * taken back. What is counted by the database is held against a second reading of the same log in this file.
 */
import type pg from 'pg'
import { beforeAll, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listTally, type TallyLine } from '#lib/db/tally.ts'
import { OUTCOMES } from '#lib/domain/outcome.ts'
import { seededRandom } from '#lib/numerics/random.ts'
import { database } from '#tests/support/database.ts'
import { hours, inTestEntry, makeWorld } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const HISTORIES = process.env['ROOSTWRIGHT_FULL'] === '1' ? 10_000 : 1000
const ROUNDS = 5
const CHUNK = 250
const DAYS = 60
const DAY = 24
const START = new Date('2027-01-01T00:00:00Z')
const LAST = hours(DAYS * DAY, START)
const SEED = 20260610

type Fact = {
  id: number
  since: number
  keeper: 'finder' | 'driver' | 'practice' | 'centre' | 'nobody'
  centreId: number | null
  outcome: string | null
  isVoid: boolean
}
type History = { id: number; arrival: number; species: string; cause: string | null; facts: Fact[] }

const random = seededRandom(SEED)
const draw = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!
const histories: History[] = []

/** Animals of arrivals of one to six; each with a finding or none. */
async function makeAnimals(client: pg.ClientBase): Promise<void> {
  const arrivals: number[] = []
  while (arrivals.length < HISTORIES) {
    const size = Math.min(1 + Math.floor(random() * 6), HISTORIES - arrivals.length)
    const { rows } = await client.query<{ id: number }>(`insert into arrival (at) values ($1) returning id`, [
      START,
    ])
    for (let one = 0; one < size; one++) arrivals.push(rows[0]!.id)
  }
  const species = arrivals.map(() => draw(['blackbird', 'song-thrush', 'sparrow', 'kestrel', 'robin']))
  const { rows } = await client.query<{ id: number; arrival_id: number; species_slug: string }>(
    `insert into casualty (reference, given_on, arrival_id, species_slug, age, company_slug)
     select 'history ' || n, '2027-01-01', a, s.slug, 'adult', s.company_slug
       from unnest($1::int[], $2::text[]) with ordinality x (a, slug, n) join species s using (slug) order by n
     returning id, arrival_id, species_slug`,
    [arrivals, species],
  )
  for (const row of rows) {
    const cause = draw([null, 'wing-fracture', 'cat', 'orphan'])
    histories.push({ id: row.id, arrival: row.arrival_id, species: row.species_slug, cause, facts: [] })
  }
  const found = histories.filter(({ cause }) => cause !== null)
  await client.query(
    `insert into finding (entry_id, casualty_id, condition_slug, noted_at)
     select 1, c, f, $3 from unnest($1::int[], $2::text[]) x (c, f)`,
    [found.map(({ id }) => id), found.map(({ cause }) => cause), START],
  )
}

type Told = { history: History; said: Partial<Fact> & { supersedes?: number; is_void?: boolean } }

/** A fact at any time of the two months, whatever was entered before; or a correction, or an entry taken back. */
function tell(history: History, round: number): Told {
  const standing = history.facts.filter(({ isVoid }) => !isVoid)
  const old = standing.length > 1 && random() < 0.3 ? draw(standing) : undefined
  if (old !== undefined && random() < 0.5) return { history, said: { supersedes: old.id, is_void: true } }
  const keeper = round === 0 ? 'finder' : draw(['centre', 'centre', 'practice', 'driver', 'nobody'] as const)
  const since = round === 0 ? random() * DAY : DAY + random() * (DAYS - 1) * DAY
  return {
    history,
    said: {
      keeper,
      since: hours(since, START).getTime(),
      centreId: keeper === 'centre' ? draw([1, 2]) : null,
      outcome: keeper === 'nobody' ? draw(OUTCOMES) : null,
      ...(old !== undefined && round > 0 && { supersedes: old.id }),
    },
  }
}

async function record(client: pg.ClientBase, told: readonly Told[]): Promise<void> {
  const ids = await inTestEntry(client, LAST, async entry => {
    const rows = told.map(({ history, said }) => ({
      entry_id: entry,
      casualty_id: history.id,
      ...(said.since !== undefined && { since: new Date(said.since) }),
      ...(said.keeper !== undefined && { keeper: said.keeper }),
      ...(said.centreId != null && { centre_id: said.centreId }),
      ...(said.outcome != null && { outcome: said.outcome }),
      ...(said.keeper === 'driver' && { driver_id: 1 }),
      ...(said.keeper === 'practice' && { practice_id: 1 }),
      ...(said.supersedes !== undefined && { supersedes: said.supersedes }),
      ...(said.is_void === true && { is_void: true }),
    }))
    const { rows: made } = await client.query<{ ids: number[] }>('select record_keepings($1, $2) as ids', [
      JSON.stringify(rows),
      LAST,
    ])
    return made[0]!.ids
  })
  told.forEach(({ history, said }, at) => {
    if (said.supersedes !== undefined) {
      history.facts = history.facts.filter(({ id }) => id !== said.supersedes)
    }
    if (said.is_void === true) return
    const { since = 0, keeper = 'finder', centreId = null, outcome = null } = said
    history.facts.push({ id: ids[at]!, since, keeper, centreId, outcome, isVoid: false })
  })
}

beforeAll(async () => {
  const client = await database.pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  await client.query(`insert into condition (slug, name, kind, applies_to, default_urgency, mark_urgency, quarantine)
    values ('cat', 'Cat', 'reason', 'both', 'today', 'CP', 'none'), ('orphan', 'Orphan', 'reason', 'both', 'today', 'CP', 'none')`)
  await makeAnimals(client)
  for (let round = 0; round < ROUNDS; round++) {
    const told = histories.filter(() => round === 0 || random() < 0.75).map(history => tell(history, round))
    for (let from = 0; from < told.length; from += CHUNK) await record(client, told.slice(from, from + CHUNK))
  }
  client.release()
}, 900_000)

type State = { history: History; state: string; since: number; centreId: number | null }

/** Where each animal stands at an instant, read from the log alone; nothing of whoever was not admitted yet. */
function statesAt(at: number): State[] {
  return histories.flatMap((history): State[] => {
    const known = history.facts.filter(({ since }) => since <= at).sort((a, b) => a.since - b.since)
    const last = known.at(-1)
    if (last === undefined || known.every(({ keeper }) => keeper === 'finder')) return []
    const centreId = known.find(({ keeper }) => keeper === 'centre')?.centreId ?? null
    const state = last.keeper === 'nobody' ? (last.outcome ?? 'unknown') : 'in care'
    return [{ history, state, since: last.since, centreId }]
  })
}

const keyOf = (species: string, cause: string | null, centreId: number | null) =>
  [species, cause ?? 'none', centreId ?? 'none'].join(' | ')

type Sums = Record<string, number>
const add = (sums: Sums, key: string, count: number) => {
  if (count > 0) sums[key] = (sums[key] ?? 0) + count
}

/** Animals and arrivals by species, cause and centre as the log has them, and once more by state. */
function expectedAt(at: number) {
  const states = statesAt(at)
  const sums = { animals: {} as Sums, arrivals: {} as Sums, byState: {} as Sums, arrivalsByState: {} as Sums }
  const arrivals = new Map<number, State[]>()
  for (const one of states) {
    const key = keyOf(one.history.species, one.history.cause, one.centreId)
    add(sums.animals, key, 1)
    add(sums.byState, `${key} | ${one.state}`, 1)
    arrivals.set(one.history.arrival, [...(arrivals.get(one.history.arrival) ?? []), one])
  }
  for (const group of arrivals.values()) {
    const first = group[0]!
    const key = keyOf(first.history.species, first.history.cause, first.centreId)
    const open = group.some(({ state }) => state === 'in care')
    const last = [...group].sort((a, b) => b.since - a.since)[0]!
    add(sums.arrivals, key, 1)
    add(sums.arrivalsByState, `${key} | ${open ? 'in care' : last.state}`, 1)
  }
  return sums
}

function countedIn(lines: readonly TallyLine[]) {
  const sums = { animals: {} as Sums, arrivals: {} as Sums, byState: {} as Sums, arrivalsByState: {} as Sums }
  for (const { species, cause, centreId, state, animals, arrivals } of lines) {
    const key = keyOf(species, cause, centreId)
    add(sums.animals, key, animals)
    add(sums.arrivals, key, arrivals)
    add(sums.byState, `${key} | ${state}`, animals)
    add(sums.arrivalsByState, `${key} | ${state}`, arrivals)
  }
  return sums
}

it(`adds up for every species, cause and centre on every day of ${HISTORIES} histories`, async () => {
  const grant = demand(systemActor('test'), 'casualty.read')
  let most = 0
  for (let day = 0; day <= DAYS; day++) {
    const at = hours(day * DAY + 12, START)
    // Animals of the small world came before the first day, so they are in no line.
    const lines = await listTally(grant, START, at)
    expect({ day, ...countedIn(lines) }).toEqual({ day, ...expectedAt(at.getTime()) })
    most = Math.max(most, lines.length)
  }
  // By species, cause, centre and state: enough lines that a slip in one of them shows.
  expect(most).toBeGreaterThan(200)
}, 900_000)
