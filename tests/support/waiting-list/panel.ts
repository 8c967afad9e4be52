/** The waiting list judged: forecasts of every seventh day, beside the naive ones and R's, by the code that judges a network. */
import type { DayNumber } from '#lib/domain/day.ts'
import { type Backtest, judgeOrigin, naiveRivals, type Rival } from '#lib/judge/backtest.ts'
import { type HorizonSummary, summaryOf } from '#lib/judge/summary.ts'
import { chiSquaredAbove } from '#lib/numerics/chi-squared.ts'
import golden from '../../golden/jasa.json' with { type: 'json' }
import { forecastWaitingList } from './forecast.ts'
import { COUNTS, FIRST_DAY, SERIES, type Series } from './record.ts'

export const ORIGINS: readonly DayNumber[] = golden.origins
const HORIZONS = golden.horizons

/** Both series are forecast at once. */
const made = new Map<DayNumber, ReturnType<typeof forecastWaitingList>>()

function forecastOn(origin: DayNumber) {
  const kept = made.get(origin) ?? forecastWaitingList(origin, Math.max(...HORIZONS))
  made.set(origin, kept)
  return kept
}

/** What the backtest of one series is made of. */
export function panelOf(series: Series): Backtest {
  return {
    series: [series],
    horizons: HORIZONS,
    forecastAt: forecastOn,
    truth: (_, day) => COUNTS[series][day - FIRST_DAY],
    rivals: [
      ...naiveRivals((_, origin) => ({
        from: FIRST_DAY,
        counts: COUNTS[series].slice(0, origin - FIRST_DAY + 1),
      })),
      fromR('exponential smoothing', golden.smoothing[series]),
      fromR('ARIMA', golden.arima[series]),
    ],
  }
}

/** Normal forecasts that R made on the same days, to the nearest count. */
function fromR(name: string, rows: readonly (readonly number[])[]): Rival {
  return {
    name,
    forecast: (_, origin, horizon) => {
      const row = rows[ORIGINS.indexOf(origin)]!
      const at = 2 * HORIZONS.indexOf(horizon)
      return { kind: 'told', pmf: roundedNormal(row[at]!, row[at + 1]!) }
    },
  }
}

/** A normal's chances of the nearest whole numbers; what lies below 0 counts as 0. */
function roundedNormal(mean: number, sd: number): number[] {
  const top = Math.max(0, Math.ceil(mean + 9 * sd))
  const below = (count: number) => {
    const z = (count - mean) / sd
    const far = chiSquaredAbove(z * z, 1) / 2
    return z < 0 ? far : 1 - far
  }
  return Array.from(
    { length: top + 1 },
    (_, k) => (k === top ? 1 : below(k + 0.5)) - (k === 0 ? 0 : below(k - 0.5)),
  )
}

/** Everything the panel says. */
export function panel(): { series: Series; rows: HorizonSummary[] }[] {
  return SERIES.map(series => {
    const backtest = panelOf(series)
    return { series, rows: summaryOf(ORIGINS.map(origin => judgeOrigin(backtest, origin))) }
  })
}
