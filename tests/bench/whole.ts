/** What is timed: a whole forecast, with everything that a page can ask of it. */
import { type Forecast, forecast, poolForecast } from '#lib/forecast/forecast.ts'
import type { ForecastInput } from '#lib/forecast/model.ts'
import { newWork, type Work } from '#lib/numerics/work.ts'

/** All demands, every pool's fan and chance of shortage. */
export function whole(input: ForecastInput, work: Work = newWork()): Forecast {
  const made = forecast(input, work)
  for (const demand of made.demands.values()) poolForecast(demand, work)
  return made
}

/** Milliseconds that something takes. */
export function timed(run: () => unknown): number {
  const start = performance.now()
  run()
  return performance.now() - start
}
