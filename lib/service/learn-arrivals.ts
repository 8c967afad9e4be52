/**
 * The second half of a learning run: arrivals by species group, and what all records together leave open of each pool.
 * Promise: arrivals are those known at the run's revision; the doubt is that of the network as it stood, forecast once for
 * each draw of everything that animals and days share, by stages and arrivals as this run learned them.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { listArrivalRecords } from '#lib/db/arrival-record.ts'
import { type DayNumber, dayOfInstant, shareOfDayLeft } from '#lib/domain/day.ts'
import type { LearnedDoubt } from '#lib/domain/learned-doubt.ts'
import type { NetworkState } from '#lib/domain/network-state.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { forecast } from '#lib/forecast/forecast.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { youngComeOn } from '#lib/forecast/usual-arrivals.ts'
import { groupBy } from '#lib/kernel/group-by.ts'
import { type LearnedArrivals, learnArrivals } from '#lib/learn/arrivals.ts'
import { drawnTrade, type StageDraws } from '#lib/learn/shared-draws.ts'
import { newSharedVariance } from '#lib/learn/shared-variance.ts'
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

/** Which arrivals count: all, or those alone that came to a centre. */
export type Counted = 'all' | 'came'

/** Learns every group's arrivals, from the first one on record to the last day that was over. */
export async function learnAllArrivals(
  grant: Grant<'system.run'>,
  { now, asOf, revision, state, trade }: RunMoment,
  counted: Counted = 'all',
): Promise<LearnedArrivals[]> {
  const rows = await listArrivalRecords(grant, now, revision)
  const days = rows
    .filter(({ centreId }) => counted === 'all' || centreId !== null)
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

/**
 * What the records leave open of each pool over the days of a forecast: the variance between forecasts of the draws. The
 * signal ends it between two of them, by throwing its reason.
 */
export async function learnDoubts(
  _grant: Grant<'system.run'>,
  { now, asOf, state, trade }: RunMoment,
  draws: StageDraws,
  arrivals: readonly LearnedArrivals[],
  {
    signal,
    horizonDays = HORIZON_DAYS,
  }: { readonly signal?: AbortSignal | undefined; readonly horizonDays?: number },
): Promise<LearnedDoubt[]> {
  const shared = newSharedVariance()
  const window = {
    today: asOf,
    horizonDays,
    shareOfTodayLeft: shareOfDayLeft(now, state.zone),
    asAt: now,
  }
  const work = newWork()
  for (const draw of draws.keys()) {
    signal?.throwIfAborted()
    shared.add(forecast(forecastInput(state, drawnTrade(trade, draws, arrivals, draw), window).input, work))
    await breathe()
  }
  return shared.doubts()
}

/** Lets others of this process work between two groups or draws. */
function breathe(): Promise<void> {
  return new Promise(done => setImmediate(done))
}
