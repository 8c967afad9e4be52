/**
 * Nested size classes: small animals that find their own class full go to the next larger one.
 * Promise: the shortage of a whole chain, max(0, max_s(D_>=s - C_>=s)), exactly and in one pass from the smallest
 * class up, since L_u = (L_(u-1) + D_u - C_u)+ ends in it (Lindley's recursion). Classes independent of each other.
 */
import { convolveCounts } from '#lib/numerics/convolution.ts'
import type { Work } from '#lib/numerics/work.ts'

/** A distribution of a count in a larger buffer: P(k) = pmf[at + k], k = 0 .. top. */
export type Slice = { readonly pmf: Float64Array; readonly at: number; readonly top: number }

/** Two buffers to work in, so that no day allocates; they grow as needed. */
export type Scratch = { sum: Float64Array; rest: Float64Array }

/** Empty buffers. */
export function newScratch(): Scratch {
  return { sum: new Float64Array(256), rest: new Float64Array(256) }
}

/** The overflow of nobody. */
export const NO_OVERFLOW: Slice = { pmf: Float64Array.of(1), at: 0, top: 0 }

/**
 * One class further up: those that overflowed from below and the class's own, less its capacity. The result lies in
 * `scratch.rest` and is good until the next call.
 */
export function overflowInto(
  below: Slice,
  own: Slice,
  capacity: number,
  scratch: Scratch,
  work: Work,
): Slice {
  const sum = sumOf(below, own, scratch, work)
  const { pmf, at, top } = sum
  const excess = Math.max(0, top - capacity)
  const rest = roomFor(scratch, 'rest', excess + 1)
  let fits = 0
  for (let k = Math.min(top, capacity); k >= 0; k--) fits += pmf[at + k]!
  rest[0] = fits
  for (let j = 1; j <= excess; j++) rest[j] = pmf[at + capacity + j]!
  return { pmf: rest, at: 0, top: excess }
}

/**
 * One class further up along the way of one more animal that has found no room yet: only the states in which this
 * class has none left either, less its capacity. Mass below 1 is what remains of the chance.
 */
export function stillUnplaced(
  below: Slice,
  own: Slice,
  capacity: number,
  scratch: Scratch,
  work: Work,
): Slice {
  const { pmf, at, top } = sumOf(below, own, scratch, work)
  const excess = Math.max(0, top - capacity)
  const rest = roomFor(scratch, 'rest', excess + 1)
  for (let j = 0; j <= excess; j++) rest[j] = capacity + j <= top ? pmf[at + capacity + j]! : 0
  return { pmf: rest, at: 0, top: excess }
}

/** The total probability of a slice. */
export function massOf({ pmf, at, top }: Slice): number {
  let mass = 0
  for (let k = top; k >= 0; k--) mass += pmf[at + k]!
  return mass
}

function sumOf(below: Slice, own: Slice, scratch: Scratch, work: Work): Slice {
  if (below === NO_OVERFLOW) return own
  const sum = roomFor(scratch, 'sum', below.top + own.top + 1)
  const top = convolveCounts(below.pmf, below.at, below.top, own.pmf, own.at, own.top, sum, 0, work)
  return { pmf: sum, at: 0, top }
}

function roomFor(scratch: Scratch, name: keyof Scratch, length: number): Float64Array {
  if (scratch[name].length < length) scratch[name] = new Float64Array(2 * length)
  return scratch[name]
}
