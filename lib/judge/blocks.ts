/**
 * Means and ratios over days that resemble each other, with the doubt that is left.
 * Promise: days close together count as what they are, not as so many independent ones: the days are cut into blocks and
 * the standard error is that of the blocks (batch means; Schmeiser 1982, Operations Research 30:556-568, from memory).
 * A horizon of 28 days has an autocorrelation time of about 12 days (engine, section 8); blocks are several times that.
 */
import type { DayNumber } from '#lib/domain/day.ts'

/** A figure and its standard error; null where there are too few blocks to know it. */
export type Figure = { readonly value: number; readonly standardError: number | null }

/** What one day adds to the upper and the lower part of a ratio; for a mean the lower is the number of values. */
export type DayPart = { readonly day: DayNumber; readonly over: number; readonly under: number }

/** No block is shorter; engine, section 8: four or five autocorrelation times at 28 days. */
const BLOCK_DAYS_MIN = 56
/** Forecasts whose spans overlap share what happens in them. */
const BLOCK_HORIZONS = 2
/** Fewer blocks say too little of how blocks differ. */
export const BLOCKS_MIN = 6

/** Days in a block for forecasts this many days ahead. */
export function blockDays(horizon: number): number {
  return Math.max(BLOCK_DAYS_MIN, BLOCK_HORIZONS * horizon)
}

/**
 * The sum of `over` by the sum of `under`, with the standard error of a ratio of block sums (delta method): the
 * square root of B/(B-1) x sum of (over_b - ratio x under_b)^2, by the sum of `under`. Blocks begin on days that `days`
 * divides, so the same days make the same blocks whenever they are added up. Null where `under` sums to 0.
 */
export function ratioOf(parts: readonly DayPart[], days: number): Figure | null {
  const blocks = new Map<number, { over: number; under: number }>()
  const total = { over: 0, under: 0 }
  for (const { day, over, under } of parts) {
    const at = Math.floor(day / days)
    const block = blocks.get(at) ?? { over: 0, under: 0 }
    blocks.set(at, block)
    for (const sum of [block, total]) {
      sum.over += over
      sum.under += under
    }
  }
  if (!(total.under > 0)) return null
  const value = total.over / total.under
  const count = blocks.size
  if (count < BLOCKS_MIN) return { value, standardError: null }
  let squares = 0
  for (const { over, under } of blocks.values()) squares += (over - value * under) ** 2
  return { value, standardError: Math.sqrt((count / (count - 1)) * squares) / total.under }
}
