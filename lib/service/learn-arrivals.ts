/**
 * The second half of a learning run: arrivals by species group, and what all records together leave open of each pool.
 * Promise: arrivals are those known at the run's revision; the doubt is that of the network as it stood, forecast once for
 * each draw of everything that animals and days share, by stages and arrivals as this run learned them.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { listArrivalRecords } from '#lib/db/arrival-record.ts'
import type { LearnedArrivalsRow } from '#lib/db/learned-arrivals.ts'
import { type DayNumber, dayOfInstant, shareOfDayLeft } from '#lib/domain/day.ts'
import type { LearnedRates } from '#lib/domain/learned-arrivals.ts'
import type { LearnedDoubt } from '#lib/domain/learned-doubt.ts'
import type { NetworkState } from '#lib/domain/network-state.ts'
import type { LearnedHazards } from '#lib/domain/stage-cell.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { forecast } from '#lib/forecast/forecast.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { youngComeOn } from '#lib/forecast/usual-arrivals.ts'
import { groupBy } from '#lib/kernel/group-by.ts'
import { drawArrivals } from '#lib/learn/arrival-draws.ts'
import { type LearnedArrivals, learnArrivals } from '#lib/learn/arrivals.ts'
import { drawCentred } from '#lib/learn/draws.ts'
import type { LearnedStage } from '#lib/learn/learn-stages.ts'
import { newSharedVariance, SHARED_DRAWS } from '#lib/learn/shared-variance.ts'
import { newWork } from '#lib/numerics/work.ts'
import { HORIZON_DAYS } from './network.ts'

/** Days for which arrivals are learned: a run that nobody renews serves half a year of forecasts. */
const ARRIVAL_DAYS = 2 * HORIZON_DAYS

/** The moment a run is of: what is known then, and the day it counts from. */
export type RunMoment = {
  readonly now: Date
  readonly asOf: DayNumber
  readonly revision: number
  readonly state: NetworkState
  readonly trade: Trade
}

/** Learns every group's arrivals, from the first one on record to the last day that was over. */
export async function learnAllArrivals(
  grant: Grant<'system.run'>,
  { now, asOf, revision, state, trade }: RunMoment,
): Promise<LearnedArrivals[]> {
  const rows = await listArrivalRecords(grant, now, revision)
  const days = rows
    .map(row => ({ ...row, day: dayOfInstant(row.at, state.zone) }))
    .filter(({ day }) => day < asOf)
  const from = days[0]?.day ?? asOf
  const byGroup = groupBy(days, ({ group }) => group)
  const learned: LearnedArrivals[] = []
  for (const { slug } of trade.groups) {
    const records = byGroup.get(slug) ?? []
    const usual = state.arrivals.filter(({ group }) => group === slug)
    learned.push(
      learnArrivals(
        { group: slug, usual, records, from, asOf, isYoung: youngComeOn(trade, slug) },
        ARRIVAL_DAYS,
      ),
    )
    await breathe()
  }
  return learned
}

/** Draws of what was learned of stages, kept small: hazards only, by draw and key. */
export type StageDraws = readonly Map<string, LearnedHazards>[]

/** Room for the draws of a run. */
export function newStageDraws(): StageDraws {
  return Array.from({ length: SHARED_DRAWS }, () => new Map())
}

/** Draws one learned stage. */
export function addStageDraws(
  draws: StageDraws,
  { key, centred, records, posterior }: LearnedStage,
  weight: number,
): void {
  for (const [draw, of] of draws.entries()) {
    const hazards = drawCentred(centred, weight, records, key, draw)
    of.set(key, { ...hazards, key, run: `draw ${draw}`, beyond: posterior.beyond })
  }
}

/** What the records leave open of each pool: the variance between forecasts of the draws. */
export async function learnDoubts(
  { now, asOf, state, trade }: RunMoment,
  draws: StageDraws,
  arrivals: readonly LearnedArrivals[],
): Promise<LearnedDoubt[]> {
  const shared = newSharedVariance()
  const window = {
    today: asOf,
    horizonDays: HORIZON_DAYS,
    shareOfTodayLeft: shareOfDayLeft(now, state.zone),
    asAt: now,
  }
  const work = newWork()
  for (const [draw, learned] of draws.entries()) {
    const rates = arrivals.map((one): [string, LearnedRates] => [one.group, drawnRates(one, draw)])
    const drawn: Trade = { ...trade, learned, arrivals: new Map(rates), doubts: [] }
    shared.add(forecast(forecastInput(state, drawn, window).input, work))
    await breathe()
  }
  return shared.doubts()
}

/** A run's arrivals as they are written. */
export function arrivalRow({ from: _, ...row }: LearnedArrivals): LearnedArrivalsRow {
  return row
}

function drawnRates(learned: LearnedArrivals, draw: number): LearnedRates {
  const { group, from, sizes, shares } = learned
  return { group, from, sizes, shares, run: `draw ${draw}`, eventsPerDay: drawArrivals(learned, draw) }
}

/** Lets others of this process work between two groups or draws. */
function breathe(): Promise<void> {
  return new Promise(done => setImmediate(done))
}
