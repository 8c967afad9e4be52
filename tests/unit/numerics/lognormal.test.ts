import fc from 'fast-check'
import { expect, test } from 'vitest'
import { LENGTH_MAX_DAYS } from '#lib/domain/estimate.ts'
import { dayTails, lognormalSigma, lognormalSurvival } from '#lib/numerics/lognormal.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import golden from '../../golden/lengths.json' with { type: 'json' }

// The figures are those of an adaptive quadrature in another implementation (tests/golden/lengths.py).
test('median 21, 90th percentile 35: sigma, two tails and the mean', () => {
  const sigma = lognormalSigma(21, 35)
  expect(sigma).toBeCloseTo(0.3985993521446118, 15)
  const tails = dayTails(21, sigma, 4000)
  expect(tails[20]).toBeCloseTo(0.5241875386774878, 13)
  expect(tails[34]).toBeCloseTo(0.10654912639664145, 13)
  expect(neumaierSum(tails)).toBeCloseTo(22.73630894190746, 11)
})

test('day 0 is real: median 1, 90th percentile 4', () => {
  const [left] = dayTails(1, lognormalSigma(1, 4), 1)
  expect(1 - left!).toBeCloseTo(0.24924705555394078, 12)
})

test('every tail of the golden table within a relative error of 1e-9', () => {
  expect(golden.tails.length).toBeGreaterThan(40)
  for (const { median, p90, k, tail } of golden.tails) {
    const tails = dayTails(median, lognormalSigma(median, p90), k + 1)
    expect(Math.abs(tails[k]! / tail - 1), `${median} ${p90} ${k}`).toBeLessThan(1e-9)
  }
})

test('tails never rise, lie in [0, 1] and start at the chance of no midnight', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.2, max: 200, noNaN: true }),
      fc.double({ min: 1, max: 12, noNaN: true }),
      (median, spread) => {
        const tails = dayTails(median, lognormalSigma(median, median * spread), 60)
        for (let k = 0; k < 60; k++) {
          expect(tails[k]).toBeGreaterThanOrEqual(0)
          expect(tails[k]).toBeLessThanOrEqual(k === 0 ? 1 : tails[k - 1]! + 1e-15)
        }
      },
    ),
  )
})

test('a length without spread passes exactly its midnights', () => {
  expect(Array.from(dayTails(2.25, 0, 4))).toEqual([1, 1, 0.25, 0])
})

test('survival is half at the median and one before the start', () => {
  expect(lognormalSurvival(21, 21, 0.4)).toBeCloseTo(0.5, 15)
  expect(lognormalSurvival(0, 21, 0.4)).toBe(1)
})

test('refuses a 90th percentile below the median and a median of nothing', () => {
  expect(() => lognormalSigma(5, 4)).toThrow('p90 needs a number of at least the median 5, got 4')
  expect(() => lognormalSigma(0, 4)).toThrow('median needs a positive number, got 0')
})

/** All a plan may say (lib/domain/estimate.ts): any positive median up to 1,500 days and any 90th percentile above it. */
const anyLength = fc
  .tuple(
    fc.oneof(
      fc.double({ min: 0, minExcluded: true, max: LENGTH_MAX_DAYS, noNaN: true, noDefaultInfinity: true }),
      fc.integer({ min: 1, max: LENGTH_MAX_DAYS }),
    ),
    fc.oneof(
      fc.constantFrom(0, 1e-15, 1e-12, 1e-9, 1e-6, 1e-3),
      fc.double({ min: 0, max: 1, noNaN: true }).map(part => LENGTH_MAX_DAYS * part),
    ),
  )
  .map(([median, above]) => [
    median,
    Math.min(LENGTH_MAX_DAYS, Math.max(median * (1 + above), median + above)),
  ])
  .filter(([median, p90]) => p90! > median!) as fc.Arbitrary<[number, number]>

test('every length a plan may state gives its tails: none below half of what its median passes, none above one', () => {
  fc.assert(
    fc.property(anyLength, ([median, p90]) => {
      const sigma = lognormalSigma(median, p90)
      const day = Math.floor(median)
      const tails = dayTails(median, sigma, day + 2)
      // Survival falls, is a half at the median, and is at most one: both bounds hold whatever the spread.
      expect(tails[0]).toBeGreaterThanOrEqual((Math.min(1, median) / 2) * (1 - 1e-11))
      expect(tails[0]).toBeLessThanOrEqual(1)
      expect(tails[day + 1]).toBeLessThanOrEqual(0.5)
      expect(tails[0]).toBeGreaterThanOrEqual(lognormalSurvival(1, median, sigma) * (1 - 1e-11))
    }),
    {
      numRuns: 300,
      examples: [
        [[5e-324, LENGTH_MAX_DAYS]],
        [[1e-50, LENGTH_MAX_DAYS]],
        [[5e-324, 1e-323]],
        [[21, 21.000000000000004]],
      ],
    },
  )
})

test('the first day of a wide length is the closed form of a lognormal cut at one day', () => {
  for (const [median, p90] of [
    [1e-3, 1500],
    [1e-6, 30],
    [0.5, 1500],
    [1e-9, 1e-3],
  ] as const) {
    const sigma = lognormalSigma(median, p90)
    const upTo =
      median * Math.exp(sigma ** 2 / 2) * lognormalSurvival(median ** 2 * Math.exp(sigma ** 2), median, sigma)
    const above = lognormalSurvival(1, median, sigma)
    expect(dayTails(median, sigma, 1)[0]! / (upTo + above), `${median} ${p90}`).toBeCloseTo(1, 9)
  }
})
