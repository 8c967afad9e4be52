/**
 * What nobody knows of a whole class at once: stays and arrivals that are all longer, or more, than was learned.
 * Promise: the mean stays what it was and the variance grows by just what the class shares; a class of which nothing is
 * shared is left as it is. Independent of who is there, so one animal more or less still counts exactly.
 * Method: the variance between draws of what is shared, added to the exact distribution within (law of total variance).
 */
import { convolveCounts } from '#lib/numerics/convolution.ts'
import { type Skellam, skellam } from '#lib/numerics/skellam.ts'
import type { Work } from '#lib/numerics/work.ts'
import type { Counts } from './company.ts'

/** Variance below which a day is left as it is: it would move no chance by a millionth. */
const NO_DOUBT = 1e-6

/**
 * The counts with an error about 0 of this variance by day added, in enclosures squared. What would be below none is none.
 * Throws RangeError for a variance that is none.
 */
export function withDoubt(counts: Counts, varianceByDay: Float64Array | undefined, work: Work): Counts {
  if (varianceByDay === undefined) return counts
  const days = counts.top.length
  const errors = Array.from({ length: days }, (_, d) => errorOf(varianceByDay[d] ?? 0, work))
  const widest = errors.reduce((most, error) => Math.max(most, error?.reach ?? 0), 0)
  if (widest === 0) return counts
  const stride = counts.stride + widest
  const pmf = new Float64Array(days * stride)
  const top = new Int32Array(days)
  const sum = new Float64Array(counts.stride + 2 * widest + 1)
  for (let d = 0; d < days; d++) {
    const from = d * counts.stride
    const error = errors[d]
    if (error === undefined) {
      pmf.set(counts.pmf.subarray(from, from + counts.top[d]! + 1), d * stride)
      top[d] = counts.top[d]!
      continue
    }
    const { reach } = error
    const last = convolveCounts(counts.pmf, from, counts.top[d]!, error.pmf, 0, 2 * reach, sum, 0, work)
    // Count k lies at k + reach of the sum.
    for (let k = 0; k <= last; k++) pmf[d * stride + Math.max(0, k - reach)]! += sum[k]!
    top[d] = Math.max(0, last - reach)
  }
  return { stride, pmf, top }
}

function errorOf(variance: number, work: Work): Skellam | undefined {
  return variance < NO_DOUBT ? undefined : skellam(variance, work)
}
