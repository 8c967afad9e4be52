/**
 * One day that is over, judged: the forecast that would have stood that night, made again and held against what came.
 * Promise: learned and forecast by the code that pages are served by, from what had been entered by the end of that day; the
 * same day, records, plans and housing give the same scores. Judged is what all centres together want of each kind of
 * place, so that who went where is not judged. Plans, housing, species and companies are those of today, of which no
 * version is kept; the counts that anybody could have guessed from are those known today, which favours a guess a little.
 * An animal that was refused shows nobody what it would have wanted: here alone, arrivals are those that came.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { findRevisionBefore, listPastAnimals } from '#lib/db/past-network.ts'
import { listStageRecords } from '#lib/db/stage-record.ts'
import { JUDGED_HORIZONS } from '#lib/domain/backtest.ts'
import { type DayNumber, startOfDay } from '#lib/domain/day.ts'
import type { JudgedOrigin } from '#lib/domain/judged-forecast.ts'
import type { NetworkState } from '#lib/domain/network-state.ts'
import { residentsAt } from '#lib/domain/past-resident.ts'
import type { LearnedHazards } from '#lib/domain/stage-cell.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { type Forecast, forecast } from '#lib/forecast/forecast.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { mergedNetwork, mergedRates } from '#lib/forecast/merged-network.ts'
import { chancesBySeries } from '#lib/forecast/present-demand.ts'
import { judgeOrigin, naiveRivals } from '#lib/judge/backtest.ts'
import { cellRecords, cellsOf } from '#lib/learn/cells.ts'
import { keptHazards } from '#lib/learn/kept-stage.ts'
import { PLAN_WEIGHT } from '#lib/learn/posterior.ts'
import { addStageDraws, newStageDraws } from '#lib/learn/shared-draws.ts'
import { judgeStays, type StayEnds } from './judge-stays.ts'
import { learnAllArrivals, learnDoubts } from './learn-arrivals.ts'
import { type LearningParts, learnCells } from './learn-cells.ts'

/** What came: counts of each series from day `from` on, one a day, up to the last day that was over. */
export type Truth = {
  readonly from: DayNumber
  readonly counts: ReadonlyMap<string, Int32Array>
}

/** What all days of a run are judged by. */
export type Judging = {
  readonly state: NetworkState
  readonly trade: Trade
  readonly truth: Truth
  readonly ends: StayEnds
}

/** The scores of the forecast that stood at the end of day `origin`. */
export async function judgeDay(
  grant: Grant<'system.run'>,
  { state, trade, truth, ends }: Judging,
  origin: DayNumber,
  parts: LearningParts,
): Promise<JudgedOrigin> {
  const then = await forecastOf(grant, state, trade, origin, parts)
  const chances = chancesBySeries(then.made)
  const { from, counts } = truth
  const backtest = {
    series: [...counts.keys()],
    horizons: JUDGED_HORIZONS,
    // The first day of the forecast is the one after the origin.
    forecastAt: () => (series: string, horizon: number) => chances(series, horizon - 1),
    truth: (series: string, day: DayNumber) => counts.get(series)?.[day - from],
    rivals: naiveRivals((series, day) => ({
      from,
      counts: counts.get(series)?.subarray(0, day - from + 1) ?? [],
    })),
  }
  const stays = await judgeStays(grant, { trade: then.trade, zone: state.zone, ends }, origin)
  return { ...judgeOrigin(backtest, origin), stays }
}

/** The forecast that stood at the end of a day, with what had been learned by then. */
export async function forecastOf(
  grant: Grant<'system.run'>,
  today: NetworkState,
  known: Trade,
  origin: DayNumber,
  parts: LearningParts,
): Promise<{ readonly made: Forecast; readonly trade: Trade }> {
  const asOf = origin + 1
  const now = startOfDay(asOf, today.zone)
  const revision = await findRevisionBefore(grant, now)
  const horizonDays = Math.max(...JUDGED_HORIZONS)
  const rows = await listStageRecords(grant, now, revision)
  const cells = cellsOf(known.plans, rows)
  const draws = newStageDraws()
  const learned = new Map<string, LearnedHazards>()
  const run = `judged ${origin}`
  await learnCells(cells, cellRecords(cells, rows, today.zone, asOf), asOf, parts, ({ key }, stage) => {
    learned.set(key, { key, run, ...keptHazards(stage) })
    addStageDraws(draws, stage, PLAN_WEIGHT)
  })
  const residents = residentsAt(await listPastAnimals(grant, revision, now), now)
  const state = mergedNetwork({ ...today, residents })
  const moment = { now, asOf, revision, trade: known }
  const arrivals = (await learnAllArrivals(grant, { ...moment, state: today }, 'came')).map(mergedRates)
  const doubts = await learnDoubts(grant, { ...moment, state }, draws, arrivals, { ...parts, horizonDays })
  const rates = new Map(arrivals.map(one => [one.group, { ...one, run }]))
  const trade = { ...known, learned, arrivals: rates, doubts }
  const window = { today: asOf, horizonDays, shareOfTodayLeft: 1, asAt: now }
  return { made: forecast(forecastInput(state, trade, window).input), trade }
}
