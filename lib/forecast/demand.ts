/**
 * How many enclosures of a pool will be wanted, by day and size class.
 * Promise: enclosures bind, not places: a company of N animals at stocking n wants ceil(N / n); companies are
 * independent and are convolved. Mixed sizes of one company are rounded up apart (an upper bound, by less than one).
 * What a class shares is added last (shared-doubt.ts).
 */
import { convolveCounts } from '#lib/numerics/convolution.ts'
import { NEGLIGIBLE } from '#lib/numerics/poisson-binomial.ts'
import type { Work } from '#lib/numerics/work.ts'
import { buildCompany, type Company, type Counts, type Member, withMember, withoutMember } from './company.ts'
import type { Need, Pool } from './model.ts'
import { withDoubt } from './shared-doubt.ts'

/** Animals whose smallest fitting step is the same; `wanted` counts enclosures. */
export type ClassDemand = { readonly companies: readonly Company[]; readonly wanted: Counts }

/** The demand for a pool: one class a step of the pool, same order. */
export type PoolDemand = {
  readonly pool: Pool
  readonly days: number
  readonly classes: readonly ClassDemand[]
}

/** Who will be in a pool, before any counting: of casualties, or of arrivals as rates of events (see arrivals.ts). */
export type Claim = { readonly need: Need } & (
  | { readonly member: Member }
  | { readonly rates: readonly Float64Array[] }
)

/** Company of all animals that fill an enclosure each, so that one convolution serves them all. */
const SINGLY = 'singly'

/** Builds the demand of a pool from all claims on it. Throws RangeError for a pool without steps. */
export function buildDemand(pool: Pool, days: number, claims: readonly Claim[], work: Work): PoolDemand {
  return buildFrom(pool, days, claims, undefined, work)
}

/** A demand and the claims it was built from. */
export type KeptDemand = { readonly demand: PoolDemand; readonly claims: readonly Claim[] }

/**
 * The demand of these claims, every company and class that is as it was taken from `kept`. The same numbers as
 * buildDemand gives; the kept demand itself when claims, pool and days are all the same objects. Throws as it does.
 */
export function rebuildDemand(
  pool: Pool,
  days: number,
  claims: readonly Claim[],
  kept: KeptDemand | undefined,
  work: Work,
): KeptDemand {
  if (kept === undefined || kept.demand.days !== days) {
    return { claims, demand: buildFrom(pool, days, claims, undefined, work) }
  }
  const isSame = kept.demand.pool === pool && areSame(kept.claims, claims)
  return isSame ? kept : { claims, demand: buildFrom(pool, days, claims, kept, work) }
}

type Parts = { key: string; stock: number; members: Member[]; rated: RatedClaim[] }
type RatedClaim = Extract<Claim, { rates: unknown }>

function buildFrom(
  pool: Pool,
  days: number,
  claims: readonly Claim[],
  kept: KeptDemand | undefined,
  work: Work,
): PoolDemand {
  const before = kept && partsByClass(kept.demand.pool, kept.claims)
  const classes = partsByClass(pool, claims).map((companies, index) => {
    const was = kept?.demand.classes[index]
    const built = Array.from(companies.values(), parts => {
      const company = was?.companies.find(({ key }) => key === parts.key)
      const rated = before?.[index]?.get(parts.key)?.rated ?? []
      const rates = company && areSame(rated, parts.rated) ? company.rates : ratesOf(parts.rated, days)
      const isSame =
        company?.rates === rates && company.stock === parts.stock && areSame(company.members, parts.members)
      return isSame ? company : buildCompany(parts.key, parts.stock, parts.members, rates, days, work)
    })
    const { doubtByDay } = pool.steps[index]!
    const isAsSure = kept?.demand.pool.steps[index]?.doubtByDay === doubtByDay
    if (was && isAsSure && areSame(was.companies, built)) return was
    return { companies: built, wanted: withDoubt(enclosuresWanted(built, days, work), doubtByDay, work) }
  })
  return { pool, days, classes }
}

/** Who claims which class of a pool, by company, in the order of the claims. */
function partsByClass(pool: Pool, claims: readonly Claim[]): Map<string, Parts>[] {
  const byClass = pool.steps.map(() => new Map<string, Parts>())
  for (const claim of claims) {
    const companies = byClass[classOf(pool, claim.need.size)]!
    const own = 'rates' in claim && isOfBroods(claim) ? { key: SINGLY, stock: 1 } : companyOf(claim.need)
    const parts = companies.get(own.key) ?? { ...own, members: [], rated: [] }
    companies.set(own.key, parts)
    if ('member' in claim) parts.members.push(claim.member)
    else parts.rated.push(claim)
  }
  return byClass
}

function areSame<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((one, at) => one === b[at])
}

/** The demand with one more member; a company that was not there begins with it. */
export function demandWith(demand: PoolDemand, need: Need, member: Member, work: Work): PoolDemand {
  const { key, stock } = companyOf(need)
  return changeClass(demand, classOf(demand.pool, need.size), work, companies => {
    const at = companies.findIndex(company => company.key === key)
    return at < 0
      ? [...companies, buildCompany(key, stock, [member], [], demand.days, work)]
      : companies.with(at, withMember(companies[at]!, member, work))
  })
}

/** The demand without a casualty; the same object when it has no claim here. */
export function demandWithout(demand: PoolDemand, casualtyId: string, work: Work): PoolDemand {
  let changed = demand
  demand.classes.forEach((kind, index) => {
    kind.companies.forEach((company, at) => {
      const member = company.members.find(other => other.casualtyId === casualtyId)
      if (member) {
        changed = changeClass(changed, index, work, companies =>
          companies.with(at, withoutMember(company, member, work)),
        )
      }
    })
  })
  return changed
}

/** Index of the class an animal of this size belongs to: the smallest step that fits, the largest where none does. */
export function classOf(pool: Pool, size: number): number {
  if (pool.steps.length === 0) throw new RangeError(`pool needs at least one step, got none in ${pool.id}`)
  const index = pool.steps.findIndex(step => step.size >= size)
  return index < 0 ? pool.steps.length - 1 : index
}

/** The company a need counts in, and how many of it share an enclosure. Throws RangeError on a stock below 1. */
export function companyOf(need: Need): { key: string; stock: number } {
  if (!(Number.isInteger(need.stock) && need.stock >= 1)) {
    throw new RangeError(`stock needs a whole number of at least 1, got ${need.stock}`)
  }
  if (need.stock === 1 || need.company.startsWith('alone:')) return { key: SINGLY, stock: 1 }
  return { key: `${need.company}|${need.stock}`, stock: need.stock }
}

/** The distribution, by day, of the enclosures these companies want together. Cuts mass below 1e-17 at the top. */
export function enclosuresWanted(companies: readonly Company[], days: number, work: Work): Counts {
  const [only] = companies
  if (companies.length === 1 && only?.stock === 1) return only.counts
  let room = 1
  for (const { counts, stock } of companies) room += Math.ceil((counts.stride - 1) / stock)
  const pmf = new Float64Array(days * room)
  const top = new Int32Array(days)
  let sum = new Float64Array(room)
  let next = new Float64Array(room)
  const part = new Float64Array(room)
  for (let d = 0; d < days; d++) {
    sum[0] = 1
    let most = 0
    for (const company of companies) {
      const partTop = regroup(company, d, part)
      most = trim(next, convolveCounts(sum, 0, most, part, 0, partTop, next, 0, work))
      const swap = sum
      sum = next
      next = swap
    }
    for (let k = 0; k <= most; k++) pmf[d * room + k] = sum[k]!
    top[d] = most
  }
  return { stride: room, pmf, top }
}

/** Writes P(ceil(N / stock) = e) into `part`, zeros not needed above; returns the largest e. */
export function regroup(company: Company, day: number, part: Float64Array): number {
  const { counts, stock } = company
  const at = day * counts.stride
  const most = Math.ceil(counts.top[day]! / stock)
  part.fill(0, 0, most + 1)
  part[0] = counts.pmf[at]!
  for (let k = 1; k <= counts.top[day]!; k++) {
    const e = Math.ceil(k / stock)
    part[e] = part[e]! + counts.pmf[at + k]!
  }
  return most
}

function trim(pmf: Float64Array, top: number): number {
  let most = top
  while (most > 0 && pmf[most]! < NEGLIGIBLE) most--
  return most
}

function changeClass(
  demand: PoolDemand,
  index: number,
  work: Work,
  change: (companies: readonly Company[]) => readonly Company[],
): PoolDemand {
  const companies = change(demand.classes[index]!.companies)
  const { doubtByDay } = demand.pool.steps[index]!
  const wanted = withDoubt(enclosuresWanted(companies, demand.days, work), doubtByDay, work)
  return { ...demand, classes: demand.classes.with(index, { companies, wanted }) }
}

/** Arrivals that share with nobody but their brood want whole enclosures, event by event. */
function isOfBroods({ need }: RatedClaim): boolean {
  return need.company.startsWith('arrival:')
}

function ratesOf(rated: readonly RatedClaim[], days: number): Float64Array[] {
  const total: Float64Array[] = []
  for (const claim of rated) {
    const { stock } = companyOf(claim.need)
    addRates(total, isOfBroods(claim) ? enclosureRates(claim.rates, stock) : claim.rates, days)
  }
  return total
}

function addRates(total: Float64Array[], more: readonly Float64Array[], days: number): void {
  more.forEach((rates, j) => {
    let sum = total[j]
    if (!sum) total[j] = sum = new Float64Array(days)
    for (let d = 0; d < days; d++) sum[d] = sum[d]! + rates[d]!
  })
}

/** Rates of events by enclosures wanted instead of animals there. */
function enclosureRates(rates: readonly Float64Array[], stock: number): Float64Array[] {
  const total: Float64Array[] = []
  rates.forEach((byDay, j) => {
    const index = Math.ceil((j + 1) / stock) - 1
    const sum = total[index]
    if (sum) for (let d = 0; d < byDay.length; d++) sum[d] = sum[d]! + byDay[d]!
    else total[index] = byDay.slice()
  })
  return total
}
