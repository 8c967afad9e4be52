/**
 * What records leave open of a whole pool at once, as the forecast takes it.
 * Promise: plain data; variances are at least 0.
 */
import type { DayNumber } from './day.ts'

/** Of enclosures of this size: variance of what is expected, in enclosures squared, on day `from` + d. */
export type LearnedDoubt = {
  readonly poolId: string
  readonly size: number
  readonly from: DayNumber
  readonly varianceByDay: Float64Array
}

/** The variances of `days` days from `today`: beyond what was learned, those of its last day; 0 before its first. */
export function doubtFrom(
  { from, varianceByDay }: LearnedDoubt,
  today: DayNumber,
  days: number,
): Float64Array {
  const last = varianceByDay.at(-1) ?? 0
  return Float64Array.from({ length: days }, (_, d) =>
    today + d < from ? 0 : (varianceByDay[today + d - from] ?? last),
  )
}
