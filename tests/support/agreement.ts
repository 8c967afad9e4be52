/** How far a forecast lies from a simulation of the same model, in standard errors of the simulation. */
import { type Forecast, poolForecast } from '#lib/forecast/forecast.ts'
import { sliceOf } from '#lib/forecast/pool-forecast.ts'
import type { Tally } from '#tests/montecarlo/replicate.ts'

export type Agreement = { readonly cells: number; readonly meanSquare: number; readonly worst: number }

/** Chances whose binomial count is far enough from 0 and all for z to be near normal. */
const LEAST_EVENTS = 25

/**
 * Mean and worst z of P(enclosures wanted >= k) over classes, days and counts, and of P(short) over pools and days.
 * `every`: looks at each so-manieth day.
 */
export function agreement(
  made: Forecast,
  tally: Tally,
  every: number,
): Record<'wanted' | 'short', Agreement> {
  const wanted = collector(tally.replications)
  const short = collector(tally.replications)
  let kind = 0
  let pool = 0
  for (const demand of made.demands.values()) {
    for (const { wanted: counts } of demand.classes) {
      const histogram = tally.wanted[kind++]!
      for (let d = 0; d < demand.days; d += every) {
        const { pmf, at, top } = sliceOf(counts, d)
        let seen = 0
        // The simulation's last box holds whatever lies above it too.
        let chance = 0
        for (let k = top; k >= tally.width; k--) chance += pmf[at + k]!
        for (let k = tally.width - 1; k > 0; k--) {
          seen += histogram[d * tally.width + k]!
          chance += k <= top ? pmf[at + k]! : 0
          wanted.add(seen, chance)
        }
      }
    }
    const { shortByDay } = poolForecast(demand)
    for (let d = 0; d < demand.days; d += every) short.add(tally.short[pool]![d]!, shortByDay[d]!)
    pool++
  }
  return { wanted: wanted.result(), short: short.result() }
}

function collector(replications: number) {
  let cells = 0
  let sum = 0
  let worst = 0
  return {
    add(seen: number, chance: number): void {
      const variance = replications * chance * (1 - chance)
      if (variance < LEAST_EVENTS) return
      const z = (seen - replications * chance) / Math.sqrt(variance)
      cells++
      sum += z * z
      worst = Math.max(worst, Math.abs(z))
    },
    result: (): Agreement => ({ cells, meanSquare: sum / cells, worst }),
  }
}
