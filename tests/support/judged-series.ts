/** A small backtest of made-up counts, for tests of judging. */
import { type Backtest, naiveRivals } from '#lib/judge/backtest.ts'
import { xoshiro } from '#tests/montecarlo/random.ts'
import { poissonPmf } from './pmf.ts'

export const FIRST_DAY = 20_000

/** Counts of two series that come by Poisson draws of a known mean a day. */
export function knownSeries(days: number, seed = 1) {
  const means = new Map(
    ['a', 'b'].map((name, i) => [name, (day: number) => 4 + 3 * i + 2 * Math.sin(day / 20)]),
  )
  const counts = new Map(
    [...means].map(([name, mean], i) => {
      const draw = xoshiro(seed * 100 + i)
      return [
        name,
        Array.from({ length: days }, (_, day) => {
          let u = draw()
          return poissonPmf(mean(day)).findIndex(p => {
            u -= p
            return u < 0
          })
        }),
      ] as const
    }),
  )
  return { means, counts }
}

/** Forecasts that know the means but for a factor, judged on those series. */
export function knownBacktest(days: number, factor = 1, seed = 1): Backtest {
  const { means, counts } = knownSeries(days, seed)
  return {
    series: ['a', 'b'],
    horizons: [1, 7, 28],
    forecastAt: origin => (name, horizon) =>
      poissonPmf(factor * means.get(name)!(origin + horizon - FIRST_DAY), 60),
    truth: (name, day) => counts.get(name)![day - FIRST_DAY],
    rivals: naiveRivals((name, origin) => ({
      from: FIRST_DAY,
      counts: counts.get(name)!.slice(0, origin - FIRST_DAY + 1),
    })),
  }
}
