/**
 * The whole seed: knowledge, network, people and two years of history in one transaction, then the last fortnight
 * through the services, in the order in which it was written down.
 * The services use the database that the surroundings name; it must be the client's.
 */
import type pg from 'pg'
import { dateOfDay, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import type { Trade } from '#lib/domain/trade.ts'
import type { Random } from '#lib/kernel/random.ts'
import { seededRandom } from '#lib/numerics/random.ts'
import { readTrade } from '#lib/service/network.ts'
import { hashPassword } from '#lib/service/password.ts'
import { carerAt } from './fortnight/actors.ts'
import { tellAhead } from './fortnight/ahead.ts'
import { type Fortnight, tellFortnight } from './fortnight/fortnight.ts'
import { Live } from './fortnight/live.ts'
import { tellRoad } from './fortnight/road.ts'
import { listMoments, type Moment } from './history/moment.ts'
import { projectFacts } from './history/projection.ts'
import {
  arrivalRows,
  checkRows,
  drawReferences,
  knownRows,
  listWeighings,
  type Weighing,
  weightRows,
} from './history/rows.ts'
import { simulateHistory } from './history/simulate.ts'
import type { Casualty } from './history/types.ts'
import { writeBatch } from './history/write.ts'
import { checkedAtOnce, insertRows, type Row } from './load/bulk.ts'
import { readTradeFromReference } from './load/knowledge.ts'
import { referenceRows } from './load/reference.ts'
import { askRows } from './scenario/asks.ts'
import { callRows, listTold, type Told } from './scenario/calls.ts'
import { contactRows } from './scenario/contacts.ts'
import { lineRows } from './scenario/line.ts'
import { centreRows, networkRows, outsideRows, peopleRows } from './scenario/rows.ts'
import { FOR_THE_SURGEON, LAST_CAGE, storyCasualties } from './scenario/story.ts'
import { birdStopOf, closingOf, REFERRAL_ID, referralRows, stopOf } from './scenario/today.ts'

export const ZONE = 'Europe/London'
const HISTORY_DAYS = 730
const SINGLE_DAYS = 14
/** So many of the newest calls were answered with options; a forecast each. */
const CALLS_TAKEN = 12
const SEED = 7
/** Tables that two years fill. */
const THE_MANY = [
  'keeping',
  'whereabouts',
  'claim',
  'stage_fact',
  'casualty',
  'casualty_plan',
  'casualty_stage',
]

/** Rows put in, by table, and how long it took. */
export type SeedReport = Record<string, number | string>

type Put = (tables: readonly (readonly [string, readonly Row[]])[]) => Promise<void>

/** Fills an empty, migrated database as of an instant. */
export async function seedAll(client: pg.ClientBase, now: Date): Promise<SeedReport> {
  const startedAt = performance.now()
  const report: SeedReport = {}
  const seconds = () => ((performance.now() - startedAt) / 1000).toFixed(1)
  const put: Put = async tables => {
    for (const [table, rows] of tables) report[table] = await insertRows(client, table, rows)
  }
  const plan = planHistory(readTradeFromReference(), now)
  await client.query('begin')
  let written: Before
  try {
    await writeSetting(plan, put)
    written = await checkedAtOnce(client, THE_MANY, () => writeBefore(client, plan, put))
    await client.query('commit')
  } catch (thrown) {
    await client.query('rollback')
    throw thrown
  }
  report['entries in one batch'] = plan.before.length
  report['seconds until the fortnight'] = seconds()
  const live = await tellSince(client, plan, written)
  await writeAfter(live, plan, put)
  for (const [what, count] of Object.entries(live.counts)) report[`one by one: ${what}`] = count
  report['seconds'] = seconds()
  return report
}

/** What is told before the services take over, and what they are told. */
type Plan = {
  readonly trade: Trade
  readonly now: Date
  readonly since: number
  readonly random: Random
  /** Animals that came before the fortnight: they keep the numbers they were generated with. */
  readonly known: readonly Casualty[]
  readonly before: readonly Moment[]
  readonly answered: readonly Told[]
  readonly weighings: readonly Weighing[]
  readonly fortnight: Omit<Fortnight, 'callOf'>
}

function planHistory(trade: Trade, now: Date): Plan {
  const random = seededRandom(SEED + 1)
  const casualties = listCasualties(trade, now)
  const today = dayOfInstant(now, ZONE)
  const since = startOfDay(today - SINGLE_DAYS, ZONE).getTime()
  const moments = listMoments(casualties, random, now.getTime())
  const before = moments.filter(one => one.at < since)
  const after = moments.filter(one => one.at >= since)
  const came = new Set(after.flatMap(({ arrived }) => arrived.map(({ arrival }) => arrival.id)))
  const told = listTold(casualties, random, since, now).filter(
    ({ arrivalId }) => arrivalId === null || came.has(arrivalId),
  )
  const taken = new Set([...told.filter(({ arrivalId }) => arrivalId === null), ...told.slice(-CALLS_TAKEN)])
  const weighings = listWeighings(casualties, random, trade, now.getTime())
  return {
    trade,
    now,
    since,
    random,
    known: casualties.filter(({ arrival }) => !came.has(arrival.id)),
    before,
    answered: told.filter(one => !taken.has(one)),
    weighings: weighings.filter(({ at }) => at < since),
    fortnight: {
      since,
      now,
      zone: ZONE,
      moments: after,
      casualties,
      taken: [...taken],
      weighings,
      closing: closingOf(now, ZONE),
      stop: stopOf(now, ZONE),
    },
  }
}

async function writeSetting({ trade, now }: Plan, put: Put): Promise<void> {
  await put([
    ...referenceRows(),
    ...networkRows(dateOfDay(dayOfInstant(now, ZONE))),
    ...outsideRows(),
    ...centreRows(trade),
    contactRows(),
  ])
  await put(peopleRows(await hashPassword(DEMO_PASSWORD)))
  await put([['line_turn', lineRows(now, ZONE)]])
}

/** Everything before the fortnight; gives the entry each animal came with, and the calls it leaves to it. */
async function writeBefore(client: pg.ClientBase, plan: Plan, put: Put): Promise<Before> {
  const { known, answered, random, before, since, trade } = plan
  const calls = callRows(answered, ZONE)
  await put(calls.tables)
  await put(arrivalRows(known, drawReferences(random, known.length), ZONE))
  const entryOf = await writeBatch(client, before, since, personAt, facts => projectFacts(facts, known))
  await put(knownRows(known, entryOf, trade))
  await put([['check_due', checkRows(known, since, ZONE, personAt)]])
  return { entryOf, callOf: calls.callOf }
}

type Before = { readonly entryOf: ReadonlyMap<number, number>; readonly callOf: ReadonlyMap<number, number> }

async function tellSince(client: pg.ClientBase, plan: Plan, { callOf }: Before): Promise<Live> {
  const live = new Live(client, await readTrade(), plan.random)
  for (const casualty of plan.known) live.know(casualty, casualty.id)
  for (const { facts } of plan.before) {
    for (const { casualty, change } of facts) live.isAt(casualty, change.centreId)
  }
  await tellFortnight(live, { ...plan.fortnight, callOf })
  return live
}

/** What no service takes: weights of the days before, and what was asked. */
async function writeAfter(live: Live, plan: Plan, put: Put): Promise<void> {
  const { weighings, fortnight } = plan
  const { rows } = await live.client.query<{ casualty_id: number; entry_id: number }>(
    'select casualty_id, min(entry_id) as entry_id from identification group by casualty_id',
  )
  const entryOf = new Map(rows.map(row => [row.casualty_id, row.entry_id]))
  await put([['weight', weightRows(weighings, one => live.idOf(one), entryOf)]])
  await put(askedRows(live, fortnight, await freeAskId(live)))
  await tellRoad(live, plan.now, ZONE)
  await tellAhead(live, plan.now, ZONE)
}

/** The fracture for a surgeon with the practice that was asked, and the owl whose next centre was silent. */
function askedRows(
  live: Live,
  { casualties, now }: Plan['fortnight'],
  firstId: number,
): [string, readonly Row[]][] {
  const story = casualties.filter(one => one.isStory === true)
  const broken = story.findLast(one => one.findings[0]?.condition === FOR_THE_SURGEON.condition)
  const owl = story.findLast(one => one.animal.species === LAST_CAGE.species)
  if (broken === undefined || owl === undefined)
    throw new RangeError('the story needs a fracture and an owl, got none')
  const surgical = live.idOf(broken)
  return [
    ['referral', referralRows(surgical, broken.arrival.at)],
    ...askRows({ firstId, referralId: REFERRAL_ID, surgical, owl: live.idOf(owl) }, now),
  ]
}

async function freeAskId({ client }: Live): Promise<number> {
  const { rows } = await client.query<{ free: number }>('select coalesce(max(id), 0) + 1 as free from ask')
  return rows[0]?.free ?? 1
}

/** History and story together, numbered in the order in which they came. */
export function listCasualties(trade: Trade, now: Date): Casualty[] {
  const birdStop = birdStopOf(now, ZONE)
  const generated = simulateHistory({ trade, now, zone: ZONE, days: HISTORY_DAYS, seed: SEED, birdStop })
  const free = { id: Math.max(...generated.map(one => Math.max(one.id, one.arrival.id))) + 1 }
  return renumbered([...generated, ...storyCasualties(trade, now, ZONE, free)])
}

/** Arrivals, batches and casualties numbered as they came. */
function renumbered(casualties: readonly Casualty[]): Casualty[] {
  const sorted = [...casualties].sort(
    (a, b) => a.arrival.at - b.arrival.at || a.arrival.id - b.arrival.id || a.id - b.id,
  )
  const arrivals = new Map<number, Casualty['arrival']>()
  const batches = new Map<number, number>()
  return sorted.map((one, at) => {
    const arrival = arrivals.get(one.arrival.id) ?? { ...one.arrival, id: arrivals.size + 1 }
    arrivals.set(one.arrival.id, arrival)
    if (one.batchNo !== null && !batches.has(one.batchNo)) batches.set(one.batchNo, batches.size + 1)
    const batchNo = one.batchNo === null ? null : (batches.get(one.batchNo) ?? null)
    return { ...one, id: at + 1, arrival, batchNo }
  })
}

/** Who writes things down at a centre. */
function personAt(centreId: number): number {
  return carerAt(centreId).personId
}
