/**
 * A whole-numbered error about 0: the difference of two Poisson counts of the same mean.
 * Promise: mean 0 and the variance asked for, exactly but for what is cut (below 1e-12 on either side); close to the normal
 * where the variance is large, and hardly ever anything but 0 where it is small. (Skellam 1946, Journal of the Royal Statistical
 * Society 109:296, from memory.)
 */
import { compoundPoisson } from './compound-poisson.ts'
import type { Work } from './work.ts'

/** Chance on one side that is left out. */
const CUT = 1e-12

/** P(S = s) = pmf[s + reach] for s = -reach .. reach; symmetric; sums to 1. */
export type Skellam = { readonly pmf: Float64Array; readonly reach: number }

/** The distribution of this variance. Throws RangeError for a negative or infinite one. */
export function skellam(variance: number, work: Work): Skellam {
  if (!(variance >= 0 && Number.isFinite(variance)))
    throw new RangeError(`variance needs a number of at least 0, got ${variance}`)
  const counts = compoundPoisson([variance / 2], work)
  const n = counts.length
  const half = new Float64Array(n)
  for (let s = 0; s < n; s++) for (let k = 0; k + s < n; k++) half[s] = half[s]! + counts[k]! * counts[k + s]!
  let reach = n - 1
  for (let tail = half[reach]!; reach > 0 && tail < CUT; ) tail += half[--reach]!
  const pmf = new Float64Array(2 * reach + 1)
  let rest = 1
  for (let s = 1; s <= reach; s++) {
    pmf[reach + s] = half[s]!
    pmf[reach - s] = half[s]!
    rest -= 2 * half[s]!
  }
  pmf[reach] = rest
  return { pmf, reach }
}
