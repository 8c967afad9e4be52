/**
 * Which days of a pool are tight, which is the worst, and how much is short in all.
 * Promise: plain reading of a forecast, nothing is estimated here. Days are indices from today on; a chance is in
 * [0, 1]; what is short is in enclosures a day (place-days short).
 */
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { type Forecast, getDemand, poolForecast } from './forecast.ts'

/** The day with the largest chance of being short, the earliest where several are as bad. */
export type WorstDay = { readonly day: number; readonly chance: number }

/**
 * The worst of the first `days` days (a whole number of at least 1; at most as many as there are are read).
 * `chance` is in [0, 1]; of equals the earliest. Throws RangeError where there is no day at all.
 */
export function worstDay(shortByDay: ArrayLike<number>, days: number): WorstDay {
  const count = Math.min(days, shortByDay.length)
  if (!(count >= 1)) throw new RangeError(`days needs at least one day, got ${count}`)
  let day = 0
  for (let d = 1; d < count; d++) if (shortByDay[d]! > shortByDay[day]!) day = d
  return { day, chance: shortByDay[day]! }
}

/** The days among the first `days` on which the chance of being short is `tightFrom` or more, ascending. */
export function listTightDays(shortByDay: ArrayLike<number>, tightFrom: number, days: number): number[] {
  const tight: number[] = []
  for (let d = 0; d < Math.min(days, shortByDay.length); d++) if (shortByDay[d]! >= tightFrom) tight.push(d)
  return tight
}

/**
 * Expected enclosure-days short over the whole horizon in these pools, all of the forecast's unless named; at least 0.
 * Throws RangeError for a pool that the forecast does not have.
 */
export function shortInAll(made: Forecast, poolIds: readonly string[] = [...made.demands.keys()]): number {
  return neumaierSum(poolIds.map(id => neumaierSum(poolForecast(getDemand(made, id)).expectedShortByDay)))
}
