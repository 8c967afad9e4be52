/**
 * Random draws for the simulation: a generator of its own (xoshiro128**, Blackman and Vigna 2018), normals by
 * Marsaglia's polar method, and alias tables (Walker 1977) for whatever has finitely many outcomes.
 */
export type Draw = () => number

/** A stream of numbers in [0, 1). */
export function xoshiro(seed: number): Draw {
  // splitmix32 fills the state.
  let mix = seed | 0
  const fill = () => {
    mix = (mix + 0x9e3779b9) | 0
    let z = Math.imul(mix ^ (mix >>> 16), 0x21f0aaad)
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97)
    return z ^ (z >>> 15)
  }
  let [a, b, c, d] = [fill(), fill(), fill(), fill()] as [number, number, number, number]
  return () => {
    const five = Math.imul(b, 5)
    const out = Math.imul((five << 7) | (five >>> 25), 9)
    const t = b << 9
    c ^= a
    d ^= b
    b ^= c
    a ^= d
    c ^= t
    d = (d << 11) | (d >>> 21)
    return (out >>> 0) * 2 ** -32
  }
}

/** A stream of standard normals. */
export function normals(draw: Draw): Draw {
  let spare = Number.NaN
  return () => {
    if (!Number.isNaN(spare)) {
      const kept = spare
      spare = Number.NaN
      return kept
    }
    while (true) {
      const x = 2 * draw() - 1
      const y = 2 * draw() - 1
      const r = x * x + y * y
      if (r >= 1 || r === 0) continue
      const scale = Math.sqrt((-2 * Math.log(r)) / r)
      spare = y * scale
      return x * scale
    }
  }
}

/** Box i is kept with chance `keep[i]`, else `other[i]` is taken. */
export type AliasTable = { readonly keep: Float64Array; readonly other: Int32Array }

/** The alias table of these weights, which need not sum to 1. */
export function aliasTable(weights: ArrayLike<number>): AliasTable {
  const n = weights.length
  let total = 0
  for (let i = 0; i < n; i++) total += weights[i]!
  const keep = new Float64Array(n)
  const other = new Int32Array(n)
  const small: number[] = []
  const large: number[] = []
  for (let i = 0; i < n; i++) {
    keep[i] = (weights[i]! * n) / total
    other[i] = i
    ;(keep[i]! < 1 ? small : large).push(i)
  }
  while (small.length > 0 && large.length > 0) {
    const low = small.pop()!
    const high = large.at(-1)!
    other[low] = high
    keep[high] = keep[high]! - (1 - keep[low]!)
    if (keep[high]! < 1) small.push(large.pop()!)
  }
  return { keep, other }
}

/** Draws an index with the given weights. */
export function alias(weights: ArrayLike<number>, draw: Draw): () => number {
  const { keep, other } = aliasTable(weights)
  const n = keep.length
  return () => {
    const x = draw() * n
    const i = x | 0
    return x - i < keep[i]! ? i : other[i]!
  }
}

/** Draws from a Poisson distribution of this mean, by table. */
export function poisson(mean: number, draw: Draw): () => number {
  const top = Math.ceil(mean + 12 * Math.sqrt(mean) + 20)
  const weights = new Float64Array(top + 1)
  let log = -mean
  for (let n = 0; n <= top; n++) {
    weights[n] = Math.exp(log)
    log += Math.log(mean) - Math.log(n + 1)
  }
  return alias(weights, draw)
}
