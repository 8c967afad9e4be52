import { expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { drawArrivals } from '#lib/learn/arrival-draws.ts'
import type { LearnedArrivals } from '#lib/learn/arrivals.ts'

const FROM = dayOfDate('2026-05-01')
const learned: LearnedArrivals = {
  group: 'owls',
  from: FROM,
  events: 200,
  refused: 0,
  level: { mean: 1.2, low: 1.0, high: 1.4 },
  weekend: 1,
  theta: 5,
  season: { mean: 1.1, shape: 100, until: dayOfDate('2026-06-01'), variance: 0.04 },
  eventsPerDay: Float64Array.from({ length: 200 }, (_, d) => 1 + d / 100),
  sizes: { young: [1], grown: [1] },
  shares: { winter: [], spring: [], summer: [], autumn: [] },
}
const draws = Array.from({ length: 4000 }, (_, draw) => drawArrivals(learned, draw))
const factors = (d: number) => draws.map(drawn => drawn[d]! / learned.eventsPerDay[d]!)
const mean = (all: readonly number[]) => all.reduce((a, b) => a + b) / all.length
const variance = (all: readonly number[]) => mean(all.map(one => (one - mean(all)) ** 2))

it('is what was learned, in the mean', () => {
  for (const d of [0, 40, 199]) expect(Math.abs(mean(factors(d)) - 1)).toBeLessThan(0.015)
})

it('scatters by the level and by the season, this one less than those that nobody saw', () => {
  const level = (Math.log(1.4) / (2 * 1.2815515655446004)) ** 2
  // Of a product of independent factors with mean 1: (1 + a)(1 + b) - 1, with the lognormal's own variance.
  const of = (season: number) => Math.exp(level) * (1 + season) - 1
  expect(variance(factors(0)) / of(0.01)).toBeCloseTo(1, 0)
  expect(variance(factors(60)) / of(0.04)).toBeGreaterThan(0.85)
  expect(variance(factors(60)) / of(0.04)).toBeLessThan(1.15)
  expect(variance(factors(0))).toBeLessThan(variance(factors(60)))
})

it('is shared by all days of a season', () => {
  for (const drawn of draws.slice(0, 20)) {
    expect(drawn[10]! / learned.eventsPerDay[10]!).toBeCloseTo(drawn[20]! / learned.eventsPerDay[20]!, 12)
    expect(drawn[10]! / learned.eventsPerDay[10]!).not.toBeCloseTo(drawn[60]! / learned.eventsPerDay[60]!, 6)
  }
})

it('is the same again, and another for another group', () => {
  expect([...drawArrivals(learned, 7)]).toEqual([...draws[7]!])
  expect(drawArrivals({ ...learned, group: 'hawks' }, 7)[0]).not.toBe(draws[7]![0])
})
