/**
 * Random numbers that anyone can repeat from a seed.
 * Promise: the same seed gives the same stream on every machine. Method: sfc32 (Chris Doty-Humphrey's small fast
 * counter generator, 128 bits of state, from memory), seeded through 12 discarded rounds. Not for secrets.
 */

/** Draws from [0, 1) in steps of 2^-32. */
export type Random = () => number

type State = { a: number; b: number; c: number; counter: number }

/** A stream for this whole-number seed (its low 32 bits count). */
export function seededRandom(seed: number): Random {
  const { random, reseed } = newStream()
  reseed(seed)
  return random
}

/** A stream that begins anew with each seed it is given, for who needs many short ones: they are those of seededRandom. */
export function newStream(): { readonly random: Random; readonly reseed: (seed: number) => void } {
  const state: State = { a: 0, b: 0, c: 0, counter: 1 }
  // Without names of their own: compilers that keep names write them anew for each stream, which costs more than a draw.
  return {
    random: () => step(state),
    reseed: seed => {
      state.a = 0x9e3779b9
      state.b = 0x243f6a88
      state.c = seed | 0
      state.counter = 1
      for (let round = 0; round < 12; round++) step(state)
    },
  }
}

function step(state: State): number {
  const { a, b, c, counter } = state
  const sum = (((a + b) | 0) + counter) | 0
  state.counter = (counter + 1) | 0
  state.a = b ^ (b >>> 9)
  state.b = (c + (c << 3)) | 0
  state.c = (((c << 21) | (c >>> 11)) + sum) | 0
  return (sum >>> 0) / 4294967296
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
