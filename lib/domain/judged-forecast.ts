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

const chance = z.number().min(0).max(1)

/**
 * A stay in a stage, predicted on its first day: the day it ended, counted from that one, or the last on which it is known
 * not to have (-1: none). The predicted chances to outlast the day before `until`, and that day; to be still going on after each
 * of the days that are judged.
 */
const judgedStay = z.strictObject({
  until: z.int().min(-1),
  isEnded: z.boolean(),
  outlasts: z.tuple([chance, chance]).readonly(),
  still: z.array(chance).readonly(),
})

/**
 * One day on which a forecast stands (a DayNumber, the last day it knows), and all its horizons; `stays`: those that began
 * in the days after it, as the same learning predicted each. Absent where stays were not judged.
 */
export const judgedOrigin = z
  .strictObject({
    origin: z.int(),
    horizons: z.array(judgedHorizon.readonly()).readonly(),
    stays: z.array(judgedStay.readonly()).readonly().optional(),
  })
  .readonly()

export type JudgedRival = Readonly<z.infer<typeof judgedRival>>
export type JudgedHorizon = Readonly<z.infer<typeof judgedHorizon>>
export type JudgedStay = Readonly<z.infer<typeof judgedStay>>
export type JudgedOrigin = z.infer<typeof judgedOrigin>
