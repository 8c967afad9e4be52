/**
 * Sums of independent counts and delays.
 * Promise: plain discrete convolution, nothing normalised or cut; inputs are never changed. Vectors sit in larger
 * buffers: `at` is the index of count or day 0, `top` the largest count.
 */
import type { Work } from './work.ts'

/**
 * Writes the distribution of the sum of two independent counts into `out` at `outAt` (which must not overlap the
 * inputs) and returns its top, aTop + bTop. (aTop + 1)(bTop + 1) multiply-adds.
 */
export function convolveCounts(
  a: Float64Array,
  aAt: number,
  aTop: number,
  b: Float64Array,
  bAt: number,
  bTop: number,
  out: Float64Array,
  outAt: number,
  work: Work,
): number {
  // The longer vector inside: fewer loop starts.
  if (bTop < aTop) return convolveCounts(b, bAt, bTop, a, aAt, aTop, out, outAt, work)
  const scale = a[aAt]!
  for (let j = 0; j <= bTop; j++) out[outAt + j] = scale * b[bAt + j]!
  for (let j = bTop + 1; j <= aTop + bTop; j++) out[outAt + j] = 0
  for (let i = 1; i <= aTop; i++) {
    const weight = a[aAt + i]!
    const base = outAt + i
    for (let j = 0; j <= bTop; j++) out[base + j] = out[base + j]! + weight * b[bAt + j]!
  }
  work.multiplyAdds += (aTop + 1) * (bTop + 1)
  return aTop + bTop
}

/**
 * Adds to `out` the days on which something happens that follows `starts` by a random delay:
 * out[d] += sum over e <= d of starts[e] delay[d - e], for the length of `starts`. `starts` may be expected numbers.
 * About n^2 / 2 multiply-adds.
 */
export function delayBy(starts: Float64Array, delay: Float64Array, out: Float64Array, work: Work): void {
  const n = starts.length
  let first = 0
  while (first < n && starts[first] === 0) first++
  // Two days at a time keep two sums in registers.
  for (let d = first; d < n; d += 2) {
    let even = 0
    let odd = 0
    for (let e = first; e <= d; e++) {
      const start = starts[e]!
      even += start * delay[d - e]!
      odd += start * delay[d + 1 - e]!
    }
    out[d] = out[d]! + even
    if (d + 1 < n) out[d + 1] = out[d + 1]! + odd + starts[d + 1]! * delay[0]!
  }
  work.multiplyAdds += ((n - first) * (n - first + 1)) / 2
}
