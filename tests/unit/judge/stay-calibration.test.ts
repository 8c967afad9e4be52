import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { PredictedStay } from '#lib/judge/single-stay.ts'
import { stayCalibration } from '#lib/judge/stay-calibration.ts'
import golden from '../../golden/single-stays.json' with { type: 'json' }
import { GOLDEN_STAYS } from '../../support/golden-stays.ts'

test('bars, chi-squared and its chance as R has them (tests/golden/single_stays.R)', () => {
  const told = stayCalibration(GOLDEN_STAYS)!
  golden.bars.forEach((bar, i) => {
    expect(Math.abs(told.bars[i]! / bar - 1)).toBeLessThan(1e-9)
  })
  expect(Math.abs(told.chiSquared / golden.chiSquared - 1)).toBeLessThan(1e-9)
  expect(Math.abs(told.probability / golden.probability - 1)).toBeLessThan(1e-9)
  expect(told.animals).toBe(80)
})

// Haider et al. 2020, the rule for a censored stay whose survival is c: (c - lower edge)/c for its own bar, width/c below.
test('a stay that still goes on counts in every bar below what it has outlived', () => {
  const { bars } = stayCalibration([{ staying: [0.85, 0.45], until: 1, isEnded: false }])!
  const expected = [0.1, 0.1, 0.1, 0.1, 0.05, 0, 0, 0, 0, 0].map(part => part / 0.45)
  expected.forEach((part, i) => {
    expect(bars[i]).toBeCloseTo(part, 12)
  })
})

/** A law of a few days, as P(K > d). */
const anyStaying = fc
  .array(fc.double({ min: 0.02, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 })
  .map(parts => {
    const total = parts.reduce((a, b) => a + b, 0) * 1.1
    let left = 1
    return parts.map(part => {
      left -= part / total
      return left
    })
  })

test('is flat, exactly, where stays come as predicted, wherever they are cut off', () => {
  fc.assert(
    fc.property(anyStaying, fc.nat(12), (staying, cut) => {
      const bars = new Array<number>(10).fill(0)
      const add = (stay: PredictedStay, weight: number) => {
        for (const [i, bar] of stayCalibration([stay])!.bars.entries()) bars[i]! += weight * bar
      }
      const last = Math.min(cut, staying.length - 1)
      for (let d = 0; d <= last; d++)
        add({ staying, until: d, isEnded: true }, (d === 0 ? 1 : staying[d - 1]!) - staying[d]!)
      add({ staying, until: last, isEnded: false }, staying[last]!)
      for (const bar of bars) expect(Math.abs(bar - 0.1)).toBeLessThan(1e-12)
    }),
  )
})

test('leans where animals stay longer than predicted', () => {
  const staying = Array.from({ length: 60 }, (_, d) => 0.8 ** (d + 1))
  const stays = Array.from({ length: 200 }, (_, i) => ({ staying, until: 6 + (i % 20), isEnded: true }))
  const { bars, probability } = stayCalibration(stays)!
  expect(bars[0]).toBeGreaterThan(60)
  expect(probability).toBeLessThan(1e-6)
})

test('of nobody it is nothing', () => {
  expect(stayCalibration([])).toBeNull()
})
