import fc from 'fast-check'
import { expect, test } from 'vitest'
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
