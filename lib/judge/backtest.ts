/**
 * Forecasts made again for days that are over, each from what was known on its day, and scored.
 * Promise: pure; whoever calls says which days are judged and when to stop. What is judged of one origin is plain data that
 * survives JSON unchanged and depends on no other origin, so a run that was stopped and went on, or that several workers
 * shared, is the same to the last digit as one done at one go. Scores are sums over series, in animals.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { JudgedHorizon, JudgedOrigin, JudgedRival } from '#lib/domain/judged-forecast.ts'
import type { Pmf } from './counts.ts'
import { fractionalCoverage } from './coverage.ts'
import { crpsOf } from './crps.ts'
import { type DayCounts, NAIVES, naivePoint, naiveSpread, type Told } from './naive.ts'
import { LEVELS, pinballOf } from './pinball.ts'
import { PIT_BINS, pitOf } from './pit.ts'

/** Another way to forecast the same counts, from what was known on `origin`. */
export type Rival = {
  readonly name: string
  readonly forecast: (series: string, origin: DayNumber, horizon: number) => Told
}

/**
 * What is judged. `forecastAt(origin)` is asked once an origin and must use nothing later than that day's end; its answer
 * gives the distribution of a series' count `horizon` days after. `truth`: the count that came; undefined where unknown.
 */
export type Backtest = {
  readonly series: readonly string[]
  readonly horizons: readonly number[]
  readonly forecastAt: (origin: DayNumber) => (series: string, horizon: number) => Pmf
  readonly truth: (series: string, day: DayNumber) => number | undefined
  readonly rivals: readonly Rival[]
}

/** The naive forecasts as rivals: each as a sure number, and with its spread. `historyOf` ends with the day of the origin. */
export function naiveRivals(historyOf: (series: string, origin: DayNumber) => DayCounts): Rival[] {
  return NAIVES.flatMap(naive => [
    {
      name: naive,
      forecast: (series, origin, horizon) => naivePoint(naive, historyOf(series, origin), horizon),
    },
    {
      name: withSpread(naive),
      forecast: (series, origin, horizon) => naiveSpread(naive, historyOf(series, origin), horizon),
    },
  ])
}

/** The name of a guess told with its spread. */
export function withSpread(name: string): string {
  return `${name}, with spread`
}

/** Judges the forecasts of one origin. Throws RangeError where a forecast is no distribution or a truth no count. */
export function judgeOrigin(backtest: Backtest, origin: DayNumber): JudgedOrigin {
  const forecast = backtest.forecastAt(origin)
  return {
    origin,
    horizons: backtest.horizons.map(horizon => judgeHorizon(backtest, origin, horizon, forecast)),
  }
}

function judgeHorizon(
  { series, truth, rivals }: Backtest,
  origin: DayNumber,
  horizon: number,
  forecast: (series: string, horizon: number) => Pmf,
): JudgedHorizon {
  const pairs = series.flatMap(name => {
    const count = truth(name, origin + horizon)
    return count === undefined ? [] : [{ name, count, pmf: forecast(name, horizon) }]
  })
  const sum = (of: (pair: (typeof pairs)[number]) => number) => pairs.reduce((all, pair) => all + of(pair), 0)
  const pits = pairs.map(({ pmf, count }) => pitOf(pmf, count))
  return {
    horizon,
    pairs: pairs.length,
    coverage: sum(({ pmf, count }) => fractionalCoverage(pmf, count)),
    crps: sum(({ pmf, count }) => crpsOf(pmf, count)),
    pinball: LEVELS.map(level => sum(({ pmf, count }) => pinballOf(pmf, count, level))),
    pit: Array.from({ length: PIT_BINS }, (_, bar) => pits.reduce((all, pit) => all + pit[bar]!, 0)),
    rivals: rivals.map(rival => judgeRival(rival, pairs, origin, horizon)),
  }
}

function judgeRival(
  { name, forecast }: Rival,
  pairs: readonly { readonly name: string; readonly count: number; readonly pmf: Pmf }[],
  origin: DayNumber,
  horizon: number,
): JudgedRival {
  const judged = { name, pairs: 0, ours: 0, theirs: 0, coverage: 0, needsDays: 0 }
  for (const pair of pairs) {
    const told = forecast(pair.name, origin, horizon)
    if (told.kind === 'too short') {
      judged.needsDays = Math.max(judged.needsDays, told.needsDays)
      continue
    }
    judged.pairs++
    judged.ours += crpsOf(pair.pmf, pair.count)
    judged.theirs += crpsOf(told.pmf, pair.count)
    judged.coverage += fractionalCoverage(told.pmf, pair.count)
  }
  return judged
}

/** The origins that are still to be judged, in their order. */
export function openOrigins(origins: readonly DayNumber[], done: readonly JudgedOrigin[]): DayNumber[] {
  const judged = new Set(done.map(({ origin }) => origin))
  return origins.filter(origin => !judged.has(origin))
}

/** What two runs judged, by origin. Throws RangeError where both judged one and disagree: then they had unlike inputs. */
export function mergeJudged(a: readonly JudgedOrigin[], b: readonly JudgedOrigin[]): JudgedOrigin[] {
  const merged = new Map(a.map(one => [one.origin, one]))
  for (const one of b) {
    const other = merged.get(one.origin)
    if (other !== undefined && JSON.stringify(other) !== JSON.stringify(one))
      throw new RangeError(`runs need the same scores of origin ${one.origin}, got two`)
    merged.set(one.origin, one)
  }
  return [...merged.values()].sort((x, y) => x.origin - y.origin)
}
