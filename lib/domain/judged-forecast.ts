/**
 * What is kept of one day on which forecasts were made again and scored: all of a backtest is a list of these.
 * Promise: plain data that survives JSON to the last digit. Scores are sums over `pairs` of a series and its count, in animals;
 * coverages are sums of shares in [0, 1].
 */
import { z } from 'zod'

const score = z.number().min(0)
const whole = z.int().min(0)

/**
 * Against one rival, over the series on which it could speak: sums of CRPS, ours and theirs, and its coverage. `needsDays`:
 * the most days of history that a series lacked for it; 0 where none did.
 */
const judgedRival = z.strictObject({
  name: z.string().min(1),
  pairs: whole,
  ours: score,
  theirs: score,
  coverage: score,
  needsDays: whole,
})

/** One horizon, in days: `pinball` by level, `pit` by bar of the histogram. */
const judgedHorizon = z.strictObject({
  horizon: z.int().min(1),
  pairs: whole,
  coverage: score,
  crps: score,
  pinball: z.array(score).readonly(),
  pit: z.array(score).readonly(),
  rivals: z.array(judgedRival.readonly()).readonly(),
})

/** One day on which a forecast stands (a DayNumber, the last day it knows), and all its horizons. */
export const judgedOrigin = z
  .strictObject({ origin: z.int(), horizons: z.array(judgedHorizon.readonly()).readonly() })
  .readonly()

export type JudgedRival = Readonly<z.infer<typeof judgedRival>>
export type JudgedHorizon = Readonly<z.infer<typeof judgedHorizon>>
export type JudgedOrigin = z.infer<typeof judgedOrigin>
