/** The whole seed in one transaction: knowledge, network, people, two years of history, and what stands open today. */
import type pg from 'pg'
import { dateOfDay, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import type { Trade } from '#lib/domain/trade.ts'
import { seededRandom } from '#lib/numerics/random.ts'
import { hashPassword } from '#lib/service/password.ts'
import { listMoments } from './history/moment.ts'
import { projectFacts } from './history/projection.ts'
import { arrivalRows, checkRows, drawReferences, knownRows, weightRows } from './history/rows.ts'
import { simulateHistory } from './history/simulate.ts'
import type { Casualty } from './history/types.ts'
import { writeMoments } from './history/write.ts'
import { insertRows, type Row } from './load/bulk.ts'
import { readTradeFromReference } from './load/knowledge.ts'
import { referenceRows } from './load/reference.ts'
import { askRows } from './scenario/asks.ts'
import { callsOf } from './scenario/calls.ts'
import { CENTRES } from './scenario/centres.ts'
import { contactRows } from './scenario/contacts.ts'
import { lineRows } from './scenario/line.ts'
import { PEOPLE, personIdOf } from './scenario/people.ts'
import { centreRows, networkRows, outsideRows, peopleRows } from './scenario/rows.ts'
import { FOR_THE_SURGEON, LAST_CAGE, storyCasualties } from './scenario/story.ts'
import { birdStopOf, closingOf, countedAt, REFERRAL_ID, referralRows, stopRows } from './scenario/today.ts'

export const ZONE = 'Europe/London'
const HISTORY_DAYS = 730
const SINGLE_DAYS = 14
const SEED = 7

/** Rows put in, by table. */
export type SeedReport = Record<string, number | string>

/** Fills an empty, migrated database as of an instant. */
export async function seedAll(client: pg.Client, now: Date): Promise<SeedReport> {
  const startedAt = performance.now()
  const report: SeedReport = {}
  const trade = readTradeFromReference()
  const put = async (tables: readonly (readonly [string, readonly Row[]])[]) => {
    for (const [table, rows] of tables) report[table] = await insertRows(client, table, rows)
  }
  await client.query('begin')
  try {
    const today = dateOfDay(dayOfInstant(now, ZONE))
    await put([
      ...referenceRows(),
      ...networkRows(today),
      ...outsideRows(),
      ...centreRows(trade, countedAt(now, ZONE)),
      contactRows(),
    ])
    await put(peopleRows(await hashPassword(DEMO_PASSWORD)))
    await put([
      ['movement_stop', stopRows(now, ZONE)],
      ['line_turn', lineRows(now, ZONE)],
    ])
    await writeHistory(client, trade, now, put, report)
    await client.query('commit')
  } catch (thrown) {
    await client.query('rollback')
    throw thrown
  }
  report['seconds'] = ((performance.now() - startedAt) / 1000).toFixed(1)
  return report
}

type Put = (tables: readonly (readonly [string, readonly Row[]])[]) => Promise<void>

async function writeHistory(
  client: pg.Client,
  trade: Trade,
  now: Date,
  put: Put,
  report: SeedReport,
): Promise<void> {
  const random = seededRandom(SEED + 1)
  const casualties = listCasualties(trade, now)
  const singlesFrom = startOfDay(dayOfInstant(now, ZONE) - SINGLE_DAYS, ZONE).getTime()
  const calls = callsOf(casualties, random, singlesFrom, now, ZONE)
  await put(calls.tables)
  await put(arrivalRows(casualties, calls.callOf, drawReferences(random, casualties.length), ZONE))
  const moments = listMoments(casualties, random, now.getTime())
  const written = await writeMoments(client, moments, [closingOf(now, ZONE)], singlesFrom, personAt, facts =>
    projectFacts(facts, casualties),
  )
  report['entries in one batch'] = written.batched
  report['entries one by one'] = written.single
  await put(knownRows(casualties, written.entryOf, trade))
  await put([
    ['check_due', checkRows(casualties, now.getTime(), ZONE, personAt)],
    ['weight', weightRows(casualties, written.entryOf, random, trade, now.getTime())],
  ])
  const broken = casualties.findLast(
    one => one.findings[0]?.condition === FOR_THE_SURGEON.condition && one.isStory === true,
  )
  if (broken !== undefined) await put([['referral', referralRows(broken.id, broken.arrival.at)]])
  const owl = casualties.findLast(one => one.animal.species === LAST_CAGE.species && one.isStory === true)
  if (broken !== undefined && owl !== undefined) {
    await put(askRows({ referralId: REFERRAL_ID, surgical: broken.id, owl: owl.id }, now))
  }
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

/** Who writes things down at a centre: its first carer. */
function personAt(centreId: number): number {
  const name = CENTRES[centreId - 1]?.name
  const person = PEOPLE.find(one => one.roles.some(role => role.role === 'carer' && role.centre === name))
  return personIdOf(person?.name ?? '')
}
