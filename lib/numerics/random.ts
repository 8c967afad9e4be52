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

/**
 * One seed from several names and whole numbers: the same for the same parts, unrelated for others. 32 bits, so two of
 * some hundred thousand may meet; what they seed is then drawn alike, and nothing else. Method: FNV-1a over the
 * characters and numbers, each followed by the finaliser of MurmurHash3 (Austin Appleby's, from memory).
 */
export function seedOf(...parts: readonly (string | number)[]): number {
  let hash = 0x811c9dc5
  for (const part of parts) {
    if (typeof part === 'number') hash = Math.imul(hash ^ part, 0x01000193)
    else for (let i = 0; i < part.length; i++) hash = Math.imul(hash ^ part.charCodeAt(i), 0x01000193)
    hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b)
    hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35)
    hash ^= hash >>> 16
  }
  return hash
}
