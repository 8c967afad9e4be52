/**
 * Rounding that keeps a sum.
 * Promise: the rounded terms add up to the rounded total, and each is within one unit of its own value (largest
 * remainder). Units: whole hundredths.
 */

export function hundredthsThatAddUp(values: readonly number[]): { terms: number[]; total: number } {
  const total = Math.round(100 * values.reduce((sum, value) => sum + value, 0)) || 0
  const terms = values.map(value => Math.floor(100 * value))
  const order = values
    .map((value, i) => ({ i, rest: 100 * value - Math.floor(100 * value) }))
    .sort((a, b) => b.rest - a.rest || a.i - b.i)
  let missing = total - terms.reduce((sum, term) => sum + term, 0)
  for (const { i } of order) {
    if (missing <= 0) break
    terms[i] = (terms[i] ?? 0) + 1
    missing -= 1
  }
  return { terms, total }
}
