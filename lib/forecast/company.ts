/**
 * How many animals of one company will be in one pool, by day: those in care and those still to come.
 * Promise: exact within the horizon (Poisson-binomial plus compound Poisson); a casualty can be added or taken out
 * and the result equals a rebuild within 1e-10. A company fills enclosures `stock` at a time.
 */
import { compoundPoissonInto, roomForCompound } from '#lib/numerics/compound-poisson.ts'
import { convolveCounts } from '#lib/numerics/convolution.ts'
import { addTrial, removeTrial } from '#lib/numerics/poisson-binomial.ts'
import type { Work } from '#lib/numerics/work.ts'

/** A casualty, or `count` litter-mates, with each one's chance of being there by day. */
export type Member = { readonly casualtyId: string; readonly count: number; readonly presence: Float64Array }

/** Distributions by day, flat: P(count = k on day d) = pmf[d * stride + k] for k up to top[d]; zeros above. */
export type Counts = { readonly stride: number; readonly pmf: Float64Array; readonly top: Int32Array }

/** One company in one class of a pool; `rates[j]` by day: events still to come with j + 1 animals there. */
export type Company = {
  readonly key: string
  readonly stock: number
  readonly members: readonly Member[]
  readonly rates: readonly Float64Array[]
  readonly counts: Counts
}

/** Chance below which an animal is not there for any purpose of a count: 1e4 of them stay below 1e-13. */
const ABSENT = 1e-17

/** The company of these members and arrivals over `days` days. */
export function buildCompany(
  key: string,
  stock: number,
  members: readonly Member[],
  rates: readonly Float64Array[],
  days: number,
  work: Work,
): Company {
  const coming = keptNewcomers(rates, days, work)
  let heads = 0
  for (const member of members) heads += member.count
  const stride = heads + coming.widest + 1
  const pmf = new Float64Array(days * stride)
  const top = new Int32Array(days)
  const residents = new Float64Array(heads + 2)
  for (let d = 0; d < days; d++) {
    residents.fill(0)
    residents[0] = 1
    let most = 0
    for (let m = 0; m < members.length; m++) most = addMember(residents, 0, most, members[m]!, d, work)
    const { buffer, starts, tops } = coming
    const at = d * stride
    if (most === 0) {
      for (let k = 0; k <= tops[d]!; k++) pmf[at + k] = residents[0]! * buffer[starts[d]! + k]!
      top[d] = tops[d]!
    } else top[d] = convolveCounts(residents, 0, most, buffer, starts[d]!, tops[d]!, pmf, at, work)
  }
  return { key, stock, members, rates, counts: { stride, pmf, top } }
}

/** The same company with one more member. */
export function withMember(company: Company, member: Member, work: Work): Company {
  const counts = widened(company.counts, member.count)
  for (let d = 0; d < counts.top.length; d++) {
    counts.top[d] = addMember(counts.pmf, d * counts.stride, counts.top[d]!, member, d, work)
  }
  return { ...company, members: [...company.members, member], counts }
}

/** The same company without this member, who must be one of its members. */
export function withoutMember(company: Company, member: Member, work: Work): Company {
  const counts = widened(company.counts, 0)
  for (let d = 0; d < counts.top.length; d++) {
    const p = chanceOf(member, d)
    if (p <= ABSENT) continue
    for (let i = 0; i < member.count; i++) {
      counts.top[d] = removeTrial(counts.pmf, d * counts.stride, counts.top[d]!, p, work)
    }
  }
  return { ...company, members: company.members.filter(other => other !== member), counts }
}

function chanceOf(member: Member, day: number): number {
  // Cleaning after an earlier stay can overlap a return to the same pool: one occupant still.
  return Math.min(1, member.presence[day]!)
}

function addMember(
  pmf: Float64Array,
  at: number,
  top: number,
  member: Member,
  day: number,
  work: Work,
): number {
  const p = chanceOf(member, day)
  if (p <= ABSENT) return top
  let most = top
  for (let i = 0; i < member.count; i++) most = addTrial(pmf, at, most, p, work)
  return most
}

/** A copy with room for `more` animals. */
function widened(counts: Counts, more: number): Counts {
  const days = counts.top.length
  const stride = counts.stride + more
  const pmf = new Float64Array(days * stride)
  for (let d = 0; d < days; d++) {
    const at = d * counts.stride
    pmf.set(counts.pmf.subarray(at, at + counts.top[d]! + 1), d * stride)
  }
  return { stride, pmf, top: counts.top.slice() }
}

/** Those still to come, by the rates they were made from: a company whose members change keeps its rates. */
const newcomersByRates = new WeakMap<readonly Float64Array[], Newcomers>()

function keptNewcomers(rates: readonly Float64Array[], days: number, work: Work): Newcomers {
  const kept = newcomersByRates.get(rates)
  if (kept && kept.tops.length === days) return kept
  const made = newcomers(rates, days, work)
  newcomersByRates.set(rates, made)
  return made
}

/** Distributions of those still to come, one a day, end to end in one buffer. */
type Newcomers = {
  readonly buffer: Float64Array
  readonly starts: Int32Array
  readonly tops: Int32Array
  readonly widest: number
}

function newcomers(rates: readonly Float64Array[], days: number, work: Work): Newcomers {
  const starts = new Int32Array(days)
  const tops = new Int32Array(days)
  if (rates.length === 0) return { buffer: Float64Array.of(1), starts, tops, widest: 0 }
  const today = new Float64Array(rates.length)
  let buffer = new Float64Array(64 * days)
  let at = 0
  let widest = 0
  for (let d = 0; d < days; d++) {
    for (let j = 0; j < rates.length; j++) today[j] = rates[j]![d]!
    const room = at + roomForCompound(today)
    if (room > buffer.length) {
      const larger = new Float64Array(2 * room)
      larger.set(buffer)
      buffer = larger
    }
    starts[d] = at
    tops[d] = compoundPoissonInto(today, buffer, at, work)
    widest = Math.max(widest, tops[d]!)
    at += tops[d]! + 1
  }
  return { buffer: buffer.slice(0, at), starts, tops, widest }
}
