/**
 * The terms of a welfare cost and their total.
 * Promise: the values add up to the total exactly, and what is shown, in hundredths of a place-day, adds up to the total
 * shown exactly; a term that costs nothing is left out. Refuses a cost that is negative or not finite.
 */
import type { CostReason, CostTerm } from '#lib/domain/option.ts'

export type PricedReason = { readonly value: number; readonly reason: CostReason }

export type Bill = {
  readonly terms: readonly CostTerm[]
  readonly total: number
  readonly totalShown: number
}

const SHOWN_PER_DAY = 100

/**
 * Adds up a cost, terms in the order given. `total` is the plain sum of the values; `totalShown` is the total rounded
 * to a hundredth, and the terms' `shown` are hundredths that add up to it. Throws RangeError on a value below 0 or not finite.
 */
export function billOf(priced: readonly PricedReason[]): Bill {
  const due = priced.filter(({ value, reason }) => {
    if (!(Number.isFinite(value) && value >= 0)) {
      throw new RangeError(`a cost needs a number of at least 0, got ${value} for ${reason.kind}`)
    }
    return value > 0
  })
  const values = due.map(({ value }) => value)
  const total = values.reduce((sum, value) => sum + value, 0)
  const parts = apportion(values, SHOWN_PER_DAY)
  return {
    terms: due.map(({ value, reason }, at) => ({ value, shown: parts[at]! / SHOWN_PER_DAY, ...reason })),
    total,
    totalShown: parts.reduce((sum, part) => sum + part, 0) / SHOWN_PER_DAY,
  }
}

/**
 * Whole parts (1/`perUnit`) that add up to the rounded sum: each value's floor, then one more for the largest
 * remainders, the earlier first in a tie. Values >= 0. Method: largest remainder (Hamilton).
 */
export function apportion(values: readonly number[], perUnit: number): readonly number[] {
  const exact = values.map(value => value * perUnit)
  const parts = exact.map(Math.floor)
  const wanted = Math.round(exact.reduce((sum, part) => sum + part, 0))
  const missing = wanted - parts.reduce((sum, part) => sum + part, 0)
  const byRemainder = [...exact.keys()].sort(
    (a, b) => exact[b]! - parts[b]! - (exact[a]! - parts[a]!) || a - b,
  )
  for (const at of byRemainder.slice(0, missing)) parts[at] = parts[at]! + 1
  return parts
}
