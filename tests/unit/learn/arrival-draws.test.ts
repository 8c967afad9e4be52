import { expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { drawArrivals, drawMix, drawShares } from '#lib/learn/arrival-draws.ts'
import type { LearnedArrivals } from '#lib/learn/arrivals.ts'

const FROM = dayOfDate('2026-05-01')
const DAYS = 200
const half = [
  { centreId: 1, share: 0.5 },
  { centreId: 2, share: 0.3 },
  { centreId: 3, share: 0.2 },
  { centreId: 4, share: 0 },
]
const plans = [
  { planIds: [], share: 0.7 },
  { planIds: ['a'], share: 0.3 },
]
const learned: LearnedArrivals = {
  group: 'owls',
  from: FROM,
  events: 200,
  refused: 0,
  level: { mean: 1.2, low: 1.0, high: 1.4 },
  weekend: 1,
  theta: 1e9,
  season: { mean: 1.1, shape: 100, until: dayOfDate('2026-06-01'), variance: 0.04 },
  eventsPerDay: Float64Array.from({ length: DAYS }, (_, d) => 1 + d / 100),
  // Every day shares the first; May alone has the second.
  spread: Array.from({ length: DAYS }, (_, d) => Float64Array.of(0.2, d < 31 ? 0.1 : 0)),
  sizes: { young: [1], grown: [1] },
  shares: { winter: half, spring: half, summer: half, autumn: half },
  sharesWeight: { winter: 20, spring: 100, summer: 1e6, autumn: 20 },
  mix: { winter: plans, spring: plans, summer: plans, autumn: plans },
  mixWeight: { winter: 5, spring: 100, summer: 1e6, autumn: 5 },
}
const draws = Array.from({ length: 4000 }, (_, draw) => drawArrivals(learned, draw))
const factors = (d: number, of = draws) => of.map(drawn => drawn[d]! / learned.eventsPerDay[d]!)
const mean = (all: readonly number[]) => all.reduce((a, b) => a + b) / all.length
const variance = (all: readonly number[]) => mean(all.map(one => (one - mean(all)) ** 2))

it('is what was learned, in the mean', () => {
  for (const d of [0, 40, 199]) expect(Math.abs(mean(factors(d)) - 1)).toBeLessThan(0.02)
})

it('scatters by what all days share and by the season, where that is not known', () => {
  // Lognormals with mean 1: exp(s2) - 1; a product of independent factors with mean 1: (1 + a)(1 + b) - 1.
  const now = Math.exp(0.04 + 0.01) - 1
  const later = Math.exp(0.04) * 1.04 - 1
  expect(Math.abs(variance(factors(0)) / now - 1)).toBeLessThan(0.15)
  expect(Math.abs(variance(factors(60)) / later - 1)).toBeLessThan(0.15)
})

it('is shared by all days of a season where days scatter by chance alone', () => {
  for (const drawn of draws.slice(0, 20)) {
    expect(drawn[10]! / learned.eventsPerDay[10]!).toBeCloseTo(drawn[20]! / learned.eventsPerDay[20]!, 3)
    expect(drawn[10]! / learned.eventsPerDay[10]!).not.toBeCloseTo(drawn[60]! / learned.eventsPerDay[60]!, 6)
  }
})

it('has each day out by its own where days scatter more', () => {
  const scattered = draws.map((_, draw) => drawArrivals({ ...learned, theta: 2 }, draw))
  // Gamma of shape 2 with mean 1: variance 1/2.
  const expected = Math.exp(0.05) * 1.5 - 1
  expect(Math.abs(mean(factors(0, scattered)) - 1)).toBeLessThan(0.05)
  expect(Math.abs(variance(factors(0, scattered)) / expected - 1)).toBeLessThan(0.15)
  expect(scattered[0]![0]! / scattered[0]![1]!).not.toBeCloseTo(1 / 1.01, 3)
})

it('is the same again, and another for another group', () => {
  expect([...drawArrivals(learned, 7)]).toEqual([...draws[7]!])
  expect(drawArrivals({ ...learned, group: 'hawks' }, 7)[0]).not.toBe(draws[7]![0])
  expect(drawShares(learned, 7)).toEqual(drawShares(learned, 7))
})

it('has shares of centres that sum to 1 and scatter as so many arrivals would', () => {
  const drawn = draws.map((_, draw) => drawShares(learned, draw))
  for (const season of ['winter', 'spring', 'summer'] as const) {
    for (const one of drawn.slice(0, 50))
      expect(one[season].reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
    const first = drawn.map(one => one[season][0]!.share)
    // A Dirichlet's share: p (1 - p) / (weight + 1).
    const expected = (0.5 * 0.5) / (learned.sharesWeight[season] + 1)
    expect(Math.abs(mean(first) - 0.5)).toBeLessThan(0.01)
    expect(Math.abs(variance(first) / expected - 1)).toBeLessThan(0.15)
  }
  expect(drawn.every(one => one.spring.every(({ centreId }) => centreId !== 4))).toBe(true)
})

it('draws shares of plans about those learned, the surer the more arrivals they rest on', () => {
  const drawn = draws.map((_, draw) => drawMix(learned, draw))
  const first = (season: 'winter' | 'spring') => drawn.map(mix => mix[season][1]!.share)
  expect(Math.abs(mean(first('winter')) - 0.3)).toBeLessThan(0.01)
  // A share of a Dirichlet: p (1 - p) / (weight + 1).
  expect(Math.abs(variance(first('winter')) / (0.21 / 6) - 1)).toBeLessThan(0.1)
  expect(Math.abs(variance(first('spring')) / (0.21 / 101) - 1)).toBeLessThan(0.1)
  for (const mix of drawn.slice(0, 20)) expect(mix.spring[0]!.share + mix.spring[1]!.share).toBeCloseTo(1, 12)
})
