/**
 * Random numbers that anyone can repeat from a seed.
 * Promise: the same seed gives the same stream on every machine. Method: sfc32 (Chris Doty-Humphrey's small fast
 * counter generator, 128 bits of state, from memory), seeded through 12 discarded rounds. Not for secrets.
 */

/** Draws from [0, 1) in steps of 2^-32. */
export type Random = () => number

/** A stream for this whole-number seed (its low 32 bits count). */
export function seededRandom(seed: number): Random {
  let a = 0x9e3779b9
  let b = 0x243f6a88
  let c = seed | 0
  let counter = 1
  const next: Random = () => {
    const sum = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = ((c << 21) | (c >>> 11)) + sum
    c |= 0
    return (sum >>> 0) / 4294967296
  }
  for (let round = 0; round < 12; round++) next()
  return next
}
