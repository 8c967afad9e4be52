/** Draws for the generated history, from a stream that anyone can repeat. */
import type { Random } from '#lib/kernel/random.ts'

/** One of several by weight; throws on an empty list. */
export function drawOne<T>(random: Random, options: readonly (readonly [T, number])[]): T {
  const total = options.reduce((sum, [, weight]) => sum + weight, 0)
  let left = random() * total
  for (const [option, weight] of options) {
    left -= weight
    if (left < 0) return option
  }
  const last = options.at(-1)
  if (last === undefined) throw new RangeError('options needs at least one, got none')
  return last[0]
}

/** The index of a share that sums to 1 with the others. */
export function drawIndex(random: Random, shares: readonly number[]): number {
  return drawOne(
    random,
    shares.map((share, at) => [at, share]),
  )
}

/** A standard normal value (Box and Muller 1958). */
export function drawNormal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}

const Z_P90 = 1.2815515655446004

/** Days of a lognormal given by its median and 90th percentile. */
export function drawLength(
  random: Random,
  length: { readonly medianDays: number; readonly p90Days: number },
): number {
  const sigma = Math.log(length.p90Days / length.medianDays) / Z_P90
  return length.medianDays * Math.exp(sigma * drawNormal(random))
}

/** A Poisson count by multiplication; fine for the small means of one centre's day. */
export function drawPoisson(random: Random, mean: number): number {
  const limit = Math.exp(-mean)
  let count = 0
  for (let product = random(); product > limit; product *= random()) count++
  return count
}

/** A gamma value of mean 1 with a whole-number shape: how a busy day differs from a quiet one. */
export function drawLevel(random: Random, shape: number): number {
  let sum = 0
  for (let one = 0; one < shape; one++) sum -= Math.log(1 - random())
  return sum / shape
}
