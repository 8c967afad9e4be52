import { describe, expect, it } from 'vitest'
import { buildDemand, type Claim } from '#lib/forecast/demand.ts'
import { poolForecast } from '#lib/forecast/forecast.ts'
import { shortBracket } from '#lib/forecast/short-bracket.ts'
import { newWork } from '#lib/numerics/work.ts'
import { need, pool, steady } from '#tests/support/forecasting.ts'

const animal = (id: string, p: number, size: number, company = 'thrushes', stock = 2): Claim => ({
  need: need({ size, company, stock }),
  member: { casualtyId: id, count: 1, presence: steady(p) },
})
const bracketOf = (capacities: readonly number[], claims: readonly Claim[]) => {
  const demand = buildDemand(pool('p', capacities, 1), 1, claims, newWork())
  const { lowerByDay, upperByDay } = shortBracket(demand)
  return { lower: lowerByDay[0]!, upper: upperByDay[0]!, exact: poolForecast(demand).shortByDay[0]! }
}

/**
 * By enumeration: an animal of size s needs an enclosure of s or larger, two of a company share one. With so few it
 * is enough to try every way of putting the company's small animals beside its large ones.
 */
function bruteForce(capacities: readonly [number, number], ps: readonly number[], qs: readonly number[]) {
  let short = 0
  for (let mask = 0; mask < 2 ** (ps.length + qs.length); mask++) {
    let mass = 1
    let [small, large] = [0, 0]
    for (const [i, p] of [...ps, ...qs].entries()) {
      const is = (mask >> i) & 1
      mass *= is ? p : 1 - p
      if (is && i < ps.length) small++
      if (is && i >= ps.length) large++
    }
    const largeCages = Math.ceil(large / 2)
    const beside = Math.min(small, 2 * largeCages - large)
    const fits = [0, beside].some(shared => {
      const smallCages = Math.ceil((small - shared) / 2)
      return largeCages <= capacities[1] && smallCages + largeCages <= capacities[0] + capacities[1]
    })
    if (!fits) short += mass
  }
  return short
}

describe('the bracket of the chance of being short', () => {
  it('is the exact figure where no company spans sizes', () => {
    const { lower, upper, exact } = bracketOf(
      [1, 1],
      [animal('a', 0.6, 2), animal('b', 0.5, 2), animal('c', 0.9, 3, 'falcons')],
    )
    expect(lower).toBe(exact)
    expect(upper).toBe(exact)
  })

  it('is the exact figure for animals that are alone, whatever their sizes', () => {
    const { lower, upper } = bracketOf([1, 1], [animal('a', 0.6, 2, 'x', 1), animal('b', 0.5, 3, 'x', 1)])
    expect(lower).toBe(upper)
  })

  it.each([
    [[1, 1] as const, [0.6, 0.5, 0.9], [0.7]],
    [[0, 1] as const, [0.6], [0.7]],
    [[1, 2] as const, [0.6, 0.5, 0.8], [0.7, 0.9, 0.4]],
    [[1, 1] as const, [0.9, 0.9, 0.9, 0.3], [0.8, 0.2]],
  ])('holds the truth found by enumeration: %j', (capacities, ps, qs) => {
    const claims = [...ps.map((p, i) => animal(`s${i}`, p, 2)), ...qs.map((p, i) => animal(`l${i}`, p, 3))]
    const { lower, upper, exact } = bracketOf(capacities, claims)
    const truth = bruteForce(capacities, ps, qs)
    expect(upper).toBe(exact)
    expect(lower).toBeLessThan(upper)
    expect(truth).toBeGreaterThanOrEqual(lower - 1e-12)
    expect(truth).toBeLessThanOrEqual(upper + 1e-12)
  })
})
