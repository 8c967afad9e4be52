import { describe, expect, it } from 'vitest'
import { fitSeasons, logVarianceOf } from '#lib/learn/season-level.ts'
import type { NormalPrior } from '#lib/numerics/count-regression.ts'
import { logGammaDraw } from '#lib/numerics/gamma.ts'
import { seededRandom } from '#lib/numerics/random.ts'

const DAYS = 30
const DAY = (seasons: number) => Array.from({ length: seasons * DAYS }, (_, d) => Math.floor(d / DAYS))

/** Seasons of 30 days, each with its own mean a day, 20 expected; days scatter by a gamma of shape 20. */
const fitted = (meanOf: (season: number) => number, seasons: number) => {
  const random = seededRandom(seasons)
  const counts = DAY(seasons).map(season => {
    const mean = (meanOf(season) * Math.exp(logGammaDraw(20, random))) / 20
    let count = 0
    for (let u = random(); u > Math.exp(-mean); u *= random()) count++
    return count
  })
  return fitSeasons(seasons, ofSeasons => {
    const day = DAY(seasons)
    const level: NormalPrior = { mean: 0, sd: 0.05 }
    return {
      rows: day.map(season => [1, ...ofSeasons.map((_, s) => Number(s === season))]),
      counts,
      offsets: day.map(() => Math.log(20)),
      priors: [level, ...ofSeasons],
      logTheta: { mean: Math.log(20), sd: 1 },
    }
  })
}

describe('the scatter of seasons', () => {
  it('is that of the prior before anything was counted', () => {
    const { variance } = fitSeasons(1, ofSeasons => ({ rows: [], counts: [], priors: ofSeasons }))
    // Mean of the seven variances by their prior, by hand.
    expect(variance).toBeCloseTo(
      0.05 * 0.0025 + 0.15 * 0.01 + 0.2 * 0.02 + 0.25 * 0.04 + 0.2 * 0.08 + 0.1 * 0.16 + 0.05 * 0.32,
      12,
    )
  })

  it('is found from seasons that differ, and from those that do not', () => {
    const random = seededRandom(4)
    const levels = Array.from({ length: 20 }, () =>
      Math.exp(0.4 * (random() + random() + random() + random() - 2) * Math.sqrt(3)),
    )
    const wide = fitted(season => 20 * levels[season]!, 20).variance
    expect(wide).toBeGreaterThan(0.07)
    expect(wide).toBeLessThan(0.33)
    expect(fitted(() => 20, 20).variance).toBeLessThan(0.015)
  })
})

describe('the level of one season', () => {
  it('is 1 where all came as expected', () => {
    for (const one of fitted(() => 20, 6).fit.coefficients) expect(Math.abs(one)).toBeLessThan(0.1)
  })

  it('follows its days, and leaves the other seasons and what they share where they are', () => {
    const { coefficients } = fitted(season => (season === 5 ? 30 : 20), 6).fit
    expect(coefficients[6]).toBeGreaterThan(0.6 * Math.log(1.5))
    expect(coefficients[6]).toBeLessThan(1.2 * Math.log(1.5))
    for (let s = 0; s < 5; s++) expect(Math.abs(coefficients[1 + s]!)).toBeLessThan(0.15)
  })

  it('has the variance of a lognormal with mean 1', () => {
    // (exp(s2) - 1) for a lognormal with mean 1.
    for (const variance of [0.01, 0.32]) expect(Math.expm1(logVarianceOf(variance))).toBeCloseTo(variance, 14)
  })
})
