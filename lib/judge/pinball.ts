/**
 * The pinball loss of a forecast's quantiles: what a person loses who plans by one of them.
 * Promise: proper for its quantile, in the unit of the count, at least 0. Its integral over the levels is half the CRPS.
 * Source: Koenker and Bassett 1978; Gneiting and Raftery 2007 (both from memory).
 */
import { demandCount, type Pmf, quantileOf } from './counts.ts'

/** The levels that a fan shows. */
export const LEVELS = [0.1, 0.25, 0.5, 0.75, 0.9] as const

/** The loss of the forecast's quantile at `level` in (0, 1). Throws RangeError as quantileOf and demandCount do. */
export function pinballOf(pmf: Pmf, count: number, level: number): number {
  demandCount(count)
  return lossOf(quantileOf(pmf, level), count, level)
}

/** The loss of saying `said` for the quantile at `level`, where `count` came. */
export function lossOf(said: number, count: number, level: number): number {
  return count >= said ? level * (count - said) : (1 - level) * (said - count)
}
