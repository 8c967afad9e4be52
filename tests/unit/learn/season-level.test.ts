import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { learnSeasonLevel } from '#lib/learn/season-level.ts'
import { seededRandom } from '#lib/numerics/random.ts'

const FROM = dayOfDate('2021-03-01')
const TODAY = dayOfDate('2024-07-16')
const EVEN = 1e9
const daysAt = (countOf: (day: number) => number) =>
  Array.from({ length: TODAY - FROM }, (_, d) => ({ day: FROM + d, count: countOf(FROM + d), mean: 4 }))

describe('the level of the season that runs', () => {
  it('is 1 where all came as expected, and sure of it', () => {
    const level = learnSeasonLevel(
      daysAt(() => 4),
      TODAY,
      EVEN,
    )
    expect(level.mean).toBeCloseTo(1, 12)
    expect(level.variance).toBeLessThan(0.015)
    expect(level.until).toBe(dayOfDate('2024-09-01'))
  })

  it('is 1 before anything was counted, with the scatter of the prior', () => {
    const level = learnSeasonLevel([], TODAY, 5)
    expect(level.mean).toBe(1)
    // Mean of the seven variances by their prior, by hand.
    expect(level.variance).toBeCloseTo(
      0.05 * 0.0025 + 0.15 * 0.01 + 0.2 * 0.02 + 0.25 * 0.04 + 0.2 * 0.08 + 0.1 * 0.16 + 0.05 * 0.32,
      12,
    )
    expect(level.shape).toBeCloseTo(1 / level.variance, 12)
  })

  it('follows this season, the less the more its days scatter', () => {
    const summer = dayOfDate('2024-06-01')
    const days = daysAt(day => (day >= summer ? 6 : 4))
    const even = learnSeasonLevel(days, TODAY, EVEN).mean
    const scattered = learnSeasonLevel(days, TODAY, 0.5).mean
    expect(even).toBeGreaterThan(1.2)
    expect(even).toBeLessThan(1.5)
    expect(scattered).toBeGreaterThan(1)
    expect(scattered).toBeLessThan(even)
  })

  it('is the gamma posterior of a worked case', () => {
    // One season only, Poisson days: shape 1/v + n, rate 1/v + m, n = 45 x 6, m = 45 x 4.
    const days = Array.from({ length: 45 }, (_, d) => ({
      day: dayOfDate('2024-06-01') + d,
      count: 6,
      mean: 4,
    }))
    const level = learnSeasonLevel(days, TODAY, EVEN)
    expect(level.shape).toBeCloseTo(1 / level.variance + 270, 4)
    expect(level.mean).toBeCloseTo(level.shape / (1 / level.variance + 180), 6)
  })

  it('finds how much seasons differ', () => {
    const random = seededRandom(4)
    const levels = new Map<number, number>()
    const seasons = Array.from({ length: 60 }, (_, s) => s)
    for (const s of seasons)
      levels.set(s, Math.exp(0.4 * (random() + random() + random() + random() - 2) * Math.sqrt(3)))
    const first = dayOfDate('2009-03-01')
    const days = Array.from({ length: 60 * 91 }, (_, d) => ({
      day: first + d,
      count: Math.round(20 * levels.get(Math.floor(d / 91.4))!),
      mean: 20,
    }))
    const wide = learnSeasonLevel(days, first + 60 * 91, EVEN).variance
    const same = learnSeasonLevel(
      days.map(day => ({ ...day, count: 20 })),
      first + 60 * 91,
      EVEN,
    ).variance
    expect(wide).toBeGreaterThan(0.07)
    expect(wide).toBeLessThan(0.33)
    expect(same).toBeLessThan(0.01)
  })
})
