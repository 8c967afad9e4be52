/**
 * Gamma draws that stay exact when their shape is next to nothing.
 * Promise: the natural logarithm of a gamma draw of scale 1, finite for every shape from 1e-300 to 1e15, where the draw
 * itself would be 0. Method: Marsaglia and Tsang 2000 for shapes of at least 1; below, gamma(a) = gamma(a + 1) U^(1/a).
 * `@stdlib/random-base-gamma` and its beta give draws, not logarithms: shapes of a law's far tail underflow to 0/0.
 */
import type { Random } from './random.ts'

/** Half a step of a draw: keeps 0 out of a logarithm. */
const HALF_STEP = 2 ** -33

/** The logarithm of one gamma draw. `shape` > 0; -Infinity for shape 0. Throws RangeError for anything else. */
export function logGammaDraw(shape: number, random: Random): number {
  if (shape === 0) return Number.NEGATIVE_INFINITY
  if (!(shape > 0 && Number.isFinite(shape)))
    throw new RangeError(`shape needs a number of at least 0, got ${shape}`)
  if (shape < 1) {
    const power = Math.log(random() + HALF_STEP) / shape
    return power + logOfLarge(shape + 1, random)
  }
  return logOfLarge(shape, random)
}

/** Marsaglia and Tsang, ACM Transactions on Mathematical Software 26:363-372, from memory. */
function logOfLarge(shape: number, random: Random): number {
  const d = shape - 1 / 3
  const c = 1 / Math.sqrt(9 * d)
  while (true) {
    const x = normalDraw(random)
    const t = 1 + c * x
    const v = t * t * t
    const u = random() + HALF_STEP
    if (v <= 0) continue
    // The squeeze accepts 97 of 100 without a logarithm of u, and none that the test below refuses.
    const isSurely = u < 1 - 0.0331 * x * x * x * x
    if (isSurely || Math.log(u) < (x * x) / 2 + d - d * v + d * Math.log(v)) return Math.log(d) + Math.log(v)
  }
}

/** One standard normal (Box and Muller 1958). */
function normalDraw(random: Random): number {
  return Math.sqrt(-2 * Math.log(random() + HALF_STEP)) * Math.cos(2 * Math.PI * random())
}

/**
 * Shares that sum to 1 from the logarithms of gamma draws: a Dirichlet draw where those have its shapes. Of logs that
 * are all -Infinity the last share is 1.
 */
export function sharesOfLogs(logs: readonly number[]): number[] {
  let top = Number.NEGATIVE_INFINITY
  for (const log of logs) if (log > top) top = log
  const parts = new Array<number>(logs.length).fill(0)
  if (top === Number.NEGATIVE_INFINITY) {
    parts[logs.length - 1] = 1
    return parts
  }
  let total = 0
  for (let i = 0; i < logs.length; i++) {
    parts[i] = Math.exp(logs[i]! - top)
    total += parts[i]!
  }
  for (let i = 0; i < parts.length; i++) parts[i] = parts[i]! / total
  return parts
}
