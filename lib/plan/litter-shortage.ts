/**
 * What several newcomers that go the same way add to the places short of one pool.
 * Promise: exact in expectation for any number of litter-mates, each by its own luck: sum over n of
 * P(at least n are there) times the price of the n-th (engine law: E(D+B-C)+ - E(D-C)+). Refuses chances outside
 * 0 to 1. Units: place-days, days from the forecast's first day.
 */

/** Rounding in a sum of probabilities may pass 1 by this much and is taken as 1. */
const ROUNDING = 1e-9

/**
 * P(B >= n) for n = 1..count with B binomial (count, p), by the pmf's recurrence in the smaller direction.
 * `count` a whole number >= 1, `p` in [0, 1]; values in [0, 1], falling in n.
 * Throws RangeError outside that domain.
 */
export function atLeast(count: number, p: number): Float64Array {
  if (!(Number.isInteger(count) && count >= 1)) {
    throw new RangeError(`count needs a whole number of at least 1, got ${count}`)
  }
  if (!(p >= -ROUNDING && p <= 1 + ROUNDING)) throw new RangeError(`p needs a chance, got ${p}`)
  const chance = Math.min(1, Math.max(0, p))
  const pmf = new Float64Array(count + 1)
  pmf[0] = 1
  for (let animal = 1; animal <= count; animal++) {
    for (let n = animal; n >= 1; n--) pmf[n] = pmf[n]! * (1 - chance) + pmf[n - 1]! * chance
    pmf[0] = pmf[0]! * (1 - chance)
  }
  const tails = new Float64Array(count)
  let tail = 0
  for (let n = count; n >= 1; n--) {
    tail += pmf[n]!
    tails[n - 1] = Math.min(1, tail)
  }
  return tails
}

/**
 * Expected places short that `count` newcomers add on one day, in [0, count].
 * `p`: chance that one of them is there; `priceOfNth(n)` for n = 1..count: the price of the n-th, in [0, 1].
 */
export function dayShortage(count: number, p: number, priceOfNth: (nth: number) => number): number {
  if (p === 0) return 0
  if (count === 1) return p * priceOfNth(1)
  const tails = atLeast(count, p)
  let sum = 0
  for (let n = 1; n <= count; n++) sum += tails[n - 1]! * priceOfNth(n)
  return sum
}

/**
 * The same day by day over the forecast: one value in [0, count] a day.
 * `presence`: chance a day that one of them takes a place; `prices[n - 1]` the price of the n-th a day.
 * Throws RangeError when lengths differ or a price is missing.
 */
export function shortageByDay(
  count: number,
  presence: Float64Array,
  prices: readonly Float64Array[],
): Float64Array {
  if (prices.length < count) throw new RangeError(`prices need ${count} newcomers, got ${prices.length}`)
  for (const price of prices) {
    if (price.length !== presence.length) {
      throw new RangeError(`prices need ${presence.length} days, got ${price.length}`)
    }
  }
  return presence.map((p, day) => dayShortage(count, p, nth => prices[nth - 1]![day]!))
}
