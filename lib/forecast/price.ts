/**
 * What one more animal would add to a pool's shortage, day by day.
 * Promise: exact, since E[(D + 1 - C)+] - E[(D - C)+] = P(D >= C): the chance that it finds no free enclosure. It is
 * the network's cost under free re-housing, and 1 - price is the chance of a proper place.
 */
import { convolveCounts } from '#lib/numerics/convolution.ts'
import { newWork, type Work } from '#lib/numerics/work.ts'
import type { Company } from './company.ts'
import { classOf, companyOf, enclosuresWanted, type PoolDemand } from './demand.ts'
import type { Need } from './model.ts'
import {
  massOf,
  NO_OVERFLOW,
  newScratch,
  overflowInto,
  type Scratch,
  type Slice,
  stillUnplaced,
} from './overflow.ts'
import { sliceOf } from './pool-forecast.ts'
import { withDoubt } from './shared-doubt.ts'

/**
 * The added shortage of one more animal with this need, for each day of the horizon: P(its company's enclosures are
 * full, so that it opens one more, and there is none left for it in its class or any larger). On a chain that is
 * P(max_(u<=s) X_u >= max(0, max_(u>s) X_u)), X_u = D_>=u - C_>=u. Each in [0, 1].
 * The animal itself must not be in `demand`. A need larger than every step prices at 1: nothing here fits it.
 */
export function priceByDay(demand: PoolDemand, need: Need, work: Work = newWork()): Float64Array {
  const { pool, days, classes } = demand
  const prices = new Float64Array(days)
  if (need.size > pool.steps.at(-1)!.size) return prices.fill(1)
  const index = classOf(pool, need.size)
  const { companies, wanted } = classes[index]!
  const { key, stock } = companyOf(need)
  const own = stock === 1 ? undefined : companies.find(company => company.key === key)
  const others =
    own &&
    withDoubt(
      enclosuresWanted(
        companies.filter(company => company !== own),
        days,
        work,
      ),
      pool.steps[index]!.doubtByDay,
      work,
    )
  const opening = newScratch()
  const scratch = newScratch()
  for (let d = 0; d < days; d++) {
    let state: Slice = NO_OVERFLOW
    for (let u = 0; u < classes.length; u++) {
      const capacity = pool.steps[u]!.capacityByDay[d]!
      if (u < index) state = overflowInto(state, sliceOf(classes[u]!.wanted, d), capacity, scratch, work)
      else {
        const opens =
          own && others ? opensAnother(own, sliceOf(others, d), d, opening, work) : sliceOf(wanted, d)
        const wants = u === index ? opens : sliceOf(classes[u]!.wanted, d)
        state = stillUnplaced(state, wants, capacity, scratch, work)
      }
    }
    prices[d] = massOf(state)
  }
  return prices
}

/** The class's demand on the event that a company's enclosures are all full: N a multiple of its stock. */
function opensAnother(company: Company, others: Slice, day: number, scratch: Scratch, work: Work): Slice {
  const { counts, stock } = company
  const at = day * counts.stride
  const most = Math.floor(counts.top[day]! / stock)
  if (scratch.rest.length <= most) scratch.rest = new Float64Array(2 * (most + 1))
  for (let e = 0; e <= most; e++) scratch.rest[e] = counts.pmf[at + e * stock]!
  const room = most + others.top + 1
  if (scratch.sum.length < room) scratch.sum = new Float64Array(2 * room)
  const top = convolveCounts(scratch.rest, 0, most, others.pmf, others.at, others.top, scratch.sum, 0, work)
  return { pmf: scratch.sum, at: 0, top }
}
