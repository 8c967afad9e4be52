/**
 * How surely the chance of being short is known where one company's animals need enclosures of several sizes.
 * Promise: the truth, with free re-housing, lies between the two. Upper: each size is rounded up to whole enclosures
 * by itself. Lower: the worst single threshold, with the company's animals of that size and larger put together.
 * Equal where no company spans sizes: then the figure is exact.
 */
import { convolveCounts } from '#lib/numerics/convolution.ts'
import { newWork, type Work } from '#lib/numerics/work.ts'
import type { Company, Counts } from './company.ts'
import { enclosuresWanted, type PoolDemand } from './demand.ts'
import { poolForecast } from './forecast.ts'
import { withDoubt } from './shared-doubt.ts'

/** P(some animal is without a proper enclosure), at least and at most, by day; `lower` <= `upper`, both in [0, 1]. */
export type ShortBracket = { readonly lowerByDay: Float64Array; readonly upperByDay: Float64Array }

/**
 * The bracket of a pool. Since small animals may live in large enclosures, a pool has room for all only if for every
 * size s the enclosures of s or larger suffice: P(short) >= max over s of P(D_>=s > C_>=s), whatever the dependence.
 * Cost: one convolution a day and size where a company spans sizes, nothing where none does.
 */
export function shortBracket(demand: PoolDemand, work: Work = newWork()): ShortBracket {
  const upperByDay = poolForecast(demand).shortByDay
  if (!hasSpanningCompany(demand)) return { lowerByDay: upperByDay, upperByDay }
  const lowerByDay = new Float64Array(demand.days)
  const capacity = new Int32Array(demand.days)
  for (let u = demand.classes.length - 1; u >= 0; u--) {
    const { capacityByDay } = demand.pool.steps[u]!
    const doubt = sumOf(demand.pool.steps.slice(u).map(({ doubtByDay }) => doubtByDay))
    const wanted = withDoubt(enclosuresWanted(companiesFrom(demand, u, work), demand.days, work), doubt, work)
    for (let d = 0; d < demand.days; d++) {
      capacity[d] = capacity[d]! + capacityByDay[d]!
      // Rounding may leave the lower end a hair above; it never is.
      lowerByDay[d] = Math.min(upperByDay[d]!, Math.max(lowerByDay[d]!, above(wanted, d, capacity[d]!)))
    }
  }
  return { lowerByDay, upperByDay }
}

/** Only companies that share enclosures are rounded; the rest count one each whatever the size. */
function hasSpanningCompany({ classes }: PoolDemand): boolean {
  const seen = new Set<string>()
  return classes.some(({ companies }) =>
    companies.some(({ key, stock }) => {
      const isAgain = stock > 1 && seen.has(key)
      seen.add(key)
      return isAgain
    }),
  )
}

/** The companies of a class and all larger ones, each company once with its animals put together. */
function companiesFrom({ classes, days }: PoolDemand, from: number, work: Work): Company[] {
  const merged = new Map<string, Company>()
  for (const { companies } of classes.slice(from)) {
    for (const company of companies) {
      const before = merged.get(company.key)
      merged.set(company.key, before === undefined ? company : together(before, company, days, work))
    }
  }
  return [...merged.values()]
}

function together(a: Company, b: Company, days: number, work: Work): Company {
  const stride = a.counts.stride + b.counts.stride
  const pmf = new Float64Array(days * stride)
  const top = new Int32Array(days)
  for (let d = 0; d < days; d++) {
    const [atA, atB] = [d * a.counts.stride, d * b.counts.stride]
    const [topA, topB] = [a.counts.top[d]!, b.counts.top[d]!]
    top[d] = convolveCounts(a.counts.pmf, atA, topA, b.counts.pmf, atB, topB, pmf, d * stride, work)
  }
  return { ...a, counts: { stride, pmf, top } }
}

/** Errors of classes are independent: their variances add up. */
function sumOf(variances: readonly (Float64Array | undefined)[]): Float64Array | undefined {
  const known = variances.filter(one => one !== undefined)
  const [first, ...others] = known
  return others.reduce((sum, one) => sum?.map((variance, d) => variance + one[d]!), first)
}

function above({ stride, pmf, top }: Counts, day: number, capacity: number): number {
  let sum = 0
  for (let k = top[day]!; k > capacity; k--) sum += pmf[day * stride + k]!
  return sum
}
