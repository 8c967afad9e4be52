import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { fitCounts, logLikelihoodOf } from '#lib/numerics/count-regression.ts'

type Fitted = {
  readonly coefficients: readonly number[]
  readonly errors: readonly number[]
  readonly theta: number
  readonly logLikelihood: number
}
// tests/golden/bird_strikes.R: R's MASS::glm.nb on daily counts of public data (vega-datasets, BSD-3-Clause).
const golden: { first: string; counts: string; all: Fitted; firstTwoYears: Fitted } = JSON.parse(
  readFileSync(new URL('../../golden/bird-strikes.json', import.meta.url), 'utf8'),
)
const counts = golden.counts.split(' ').map(Number)
const rows = counts.map((_, t) => {
  const w = (2 * Math.PI * t) / 365.25
  const weekday = new Date(Date.parse(golden.first) + t * 86_400_000).getUTCDay()
  return [
    1,
    Math.sin(w),
    Math.cos(w),
    Math.sin(2 * w),
    Math.cos(2 * w),
    t / 365.25,
    Number(weekday % 6 === 0),
  ]
})

describe.each([
  ['twelve years of days', counts.length, golden.all],
  ['two years of days', 730, golden.firstTwoYears],
])('%s', (_, days, expected) => {
  const fit = fitCounts({ rows: rows.slice(0, days), counts: counts.slice(0, days) })

  it('are fitted as R has it', () => {
    for (const [i, one] of expected.coefficients.entries()) expect(fit.coefficients[i]).toBeCloseTo(one, 9)
    expect(fit.theta / expected.theta).toBeCloseTo(1, 7)
    expect(fit.logLikelihood).toBeCloseTo(expected.logLikelihood, 8)
  })

  it('have the errors that R has', () => {
    for (const [i, one] of expected.errors.entries())
      expect(Math.sqrt(fit.covariance[i]![i]!) / one).toBeCloseTo(1, 7)
  })
})

it('gives the figures printed in the handbook run', () => {
  // R 4.2, MASS::glm.nb: theta 12.2340, weekend -0.22259, log-likelihood -7503.2396.
  const fit = fitCounts({ rows, counts })
  expect(fit.theta.toFixed(4)).toBe('12.2340')
  expect(fit.coefficients[6]!.toFixed(5)).toBe('-0.22259')
  expect(fit.logLikelihood.toFixed(4)).toBe('-7503.2396')
})

describe('priors', () => {
  const priors = [
    { mean: 0.3, sd: 0.2 },
    { mean: -0.1, sd: 0.2 },
  ]
  const logTheta = { mean: Math.log(5), sd: 1 }

  it('are the answer where nothing was counted', () => {
    const fit = fitCounts({ rows: [], counts: [], priors, logTheta })
    expect([...fit.coefficients]).toEqual([0.3, -0.1])
    expect(fit.theta).toBeCloseTo(5, 12)
    expect(Math.sqrt(fit.covariance[0]![0]!)).toBeCloseTo(0.2, 12)
    expect(fit.logLikelihood).toBe(0)
  })

  it('meet the counts half-way where both know as much', () => {
    // One coefficient, Poisson-like counts: the highest point looked for on a fine grid.
    const data = {
      rows: Array.from({ length: 60 }, () => [1]),
      counts: Array.from({ length: 60 }, (_, i) => i % 3),
    }
    const prior = { mean: -1, sd: 0.15 }
    const fit = fitCounts({ ...data, priors: [prior], logTheta: { mean: Math.log(3), sd: 1e-6 } })
    let best = { at: 0, height: Number.NEGATIVE_INFINITY }
    for (let at = -1.2; at < 0.2; at += 1e-4) {
      const means = Float64Array.from(data.counts, () => Math.exp(at))
      const height = logLikelihoodOf(data.counts, means, 3) - ((at - prior.mean) / prior.sd) ** 2 / 2
      if (height > best.height) best = { at, height }
    }
    expect(fit.coefficients[0]).toBeCloseTo(best.at, 3)
  })

  it('keep theta where counts scatter less than chance', () => {
    const even = {
      rows: Array.from({ length: 200 }, () => [1]),
      counts: Array.from({ length: 200 }, () => 2),
    }
    expect(fitCounts(even).theta).toBeGreaterThan(1e5)
    expect(fitCounts({ ...even, logTheta }).theta).toBeLessThan(1e3)
  })
})

it('refuses counts that are none and lengths that disagree', () => {
  expect(() => fitCounts({ rows: [[1]], counts: [1.5] })).toThrow(RangeError)
  expect(() => fitCounts({ rows: [[1]], counts: [-1] })).toThrow(RangeError)
  expect(() => fitCounts({ rows: [[1], [1]], counts: [1] })).toThrow(RangeError)
  expect(() => fitCounts({ rows: [[1], [1, 2]], counts: [1, 1] })).toThrow(RangeError)
})

it('takes counts of 0 only', () => {
  const fit = fitCounts({
    rows: [[1], [1], [1]],
    counts: [0, 0, 0],
    priors: [{ mean: 0, sd: 0.5 }],
    logTheta: { mean: Math.log(5), sd: 1 },
  })
  expect(fit.coefficients[0]).toBeLessThan(0)
  expect(fit.coefficients[0]).toBeGreaterThan(-2)
})
