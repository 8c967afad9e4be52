/**
 * Histories whose right forecast is known in closed form, and stays with their right predictions; shares nothing with
 * the engine. Arrivals are Poisson, each animal leaves on a day with one chance, so the count in h days is
 * a binomial of those in care and a Poisson of those to come.
 */
import type { Backtest, Rival } from '#lib/judge/backtest.ts'
import type { PredictedStay } from '#lib/judge/single-stay.ts'
import { poisson, xoshiro } from '#tests/montecarlo/random.ts'
import { poissonPmf } from './pmf.ts'

/** Mean stay 12 days, 12 in care on average. */
const STAYING = 1 - 1 / 12
const ARRIVALS_A_DAY = 1

/** Counts of this many days, from a day on which the house has long been open. */
export function drawHistory(days: number, seed: number): number[] {
  const draw = xoshiro(seed)
  const arrivals = poisson(ARRIVALS_A_DAY, draw)
  let present = 0
  const counts: number[] = []
  for (let day = -200; day < days; day++) {
    let left = 0
    for (let i = 0; i < present; i++) left += Number(draw() >= STAYING)
    present += arrivals() - left
    if (day >= 0) counts.push(present)
  }
  return counts
}

const binomialPmf = (n: number, p: number) => {
  let pmf = [1]
  for (let i = 0; i < n; i++)
    pmf = Array.from({ length: i + 2 }, (_, k) => (pmf[k] ?? 0) * (1 - p) + (pmf[k - 1] ?? 0) * p)
  return pmf
}

const known = new Map<string, number[]>()

/** The right distribution `horizon` days after a day with this count. Kept; do not change it. */
export function rightForecast(count: number, horizon: number): number[] {
  const key = `${count} ${horizon}`
  const kept = known.get(key)
  if (kept !== undefined) return kept
  const stay = STAYING ** horizon
  const still = binomialPmf(count, stay)
  const come = poissonPmf((ARRIVALS_A_DAY * (1 - stay)) / (1 - STAYING))
  const sum = new Array<number>(still.length + come.length - 1).fill(0)
  for (const [i, p] of still.entries()) for (const [j, q] of come.entries()) sum[i + j]! += p * q
  known.set(key, sum)
  return sum
}

/** The right forecasts of a history, or those that take each count for `factor` times as many. */
export function backtestOf(
  counts: readonly number[],
  horizons: readonly number[],
  rivals: readonly Rival[] = [],
  factor = 1,
): Backtest {
  return {
    series: ['house'],
    horizons,
    forecastAt: origin => (_, horizon) => rightForecast(Math.round(factor * counts[origin]!), horizon),
    truth: (_, day) => counts[day],
    rivals,
  }
}

/**
 * n animals, each with chances of its own, predicted rightly or `stretch` times too long; with `lossADay` some go from sight.
 * `whole`: the same stays as if nobody had.
 */
export function drawPredicted(
  n: number,
  seed: number,
  lossADay: number,
  stretch = 1,
): { stays: PredictedStay[]; whole: PredictedStay[] } {
  const draw = xoshiro(seed)
  const days = 120
  const drawn = Array.from({ length: n }, () => {
    const mean = 4 + 26 * draw()
    const said = 1 - 1 / (mean * stretch)
    const staying = Float64Array.from({ length: days }, (_, d) => said ** (d + 1))
    let end = 0
    while (draw() < 1 - 1 / mean) end++
    let lost = 0
    while (lossADay > 0 && draw() >= lossADay) lost++
    const whole = { staying, until: end, isEnded: true }
    return { whole, stay: lossADay > 0 && lost < end ? { staying, until: lost, isEnded: false } : whole }
  })
  return { stays: drawn.map(({ stay }) => stay), whole: drawn.map(({ whole }) => whole) }
}
