/**
 * How many animals a pool expects on a day, and how many of them nobody knows yet.
 * Promise: means of the very counts that the forecast is made of. Units: animals; brood-mates who will share with
 * nobody else count as the enclosures they take.
 */
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import type { Company } from './company.ts'
import type { PoolDemand } from './demand.ts'

/** `all` animals expected, `unknown` of them still to arrive; 0 <= unknown <= all. */
export type ExpectedAnimals = { readonly all: number; readonly unknown: number }

/** The expected animals of a pool on a day from today on (index 0 is today). Throws RangeError outside the horizon. */
export function expectedAnimals({ classes, days }: PoolDemand, day: number): ExpectedAnimals {
  if (!(day >= 0 && day < days)) throw new RangeError(`day needs an index below ${days}, got ${day}`)
  const companies = classes.flatMap(kind => kind.companies)
  const all = neumaierSum(companies.map(company => meanOn(company, day)))
  const known = neumaierSum(
    companies.flatMap(({ members }) =>
      members.map(({ count, presence }) => count * Math.min(1, presence[day]!)),
    ),
  )
  return { all, unknown: Math.max(0, all - known) }
}

function meanOn({ counts: { stride, pmf, top } }: Company, day: number): number {
  let mean = 0
  for (let k = top[day]!; k > 0; k--) mean += k * pmf[day * stride + k]!
  return mean
}
