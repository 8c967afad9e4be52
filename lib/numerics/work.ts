/**
 * A tally of multiply-adds, so that the cost of a computation is a number a test can read.
 * Promise: whoever is handed a Work adds what it did, once per loop and never inside one. Unit: one `s += a * b`.
 */

/** Multiply-adds done so far; the functions that take one add to it. */
export type Work = { multiplyAdds: number }

/** A tally that starts at nothing. */
export function newWork(): Work {
  return { multiplyAdds: 0 }
}
