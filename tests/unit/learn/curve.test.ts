import { expect, test } from 'vitest'
import { curveOf } from '#lib/learn/curve.ts'
import { learnStages } from '#lib/learn/learn-stages.ts'
import { TODAY } from '../../support/forecasting.ts'
import { drawStays, planOf, type StageTruth } from '../../support/stage-truth.ts'

const TRUTH: StageTruth = { early: 0.15, death: [3, 0.9], ready: [8, 0.5] }
const PLAN = planOf(TRUTH, 1.5)
const DAYS = 60
const curve = (n: number, key = 'a') => {
  const cell = { key, stage: 's', condition: 'c', estimate: PLAN, stays: drawStays(TRUTH, n, 2), days: DAYS }
  return curveOf(PLAN, learnStages([cell], TODAY)[0]!)
}
const widest = ({ low, high }: { low: Float64Array; high: Float64Array }) =>
  Math.max(...low.map((one, d) => high[d]! - one))

test('the line lies in its band, between what the plan and what the records say', () => {
  const { plan, learned, low, high, atRisk } = curve(40)
  for (let d = 0; d < plan.length; d++) {
    expect(low[d]).toBeLessThanOrEqual(high[d]!)
    if (learned[d]! > 0.02) expect(low[d]! <= learned[d]! && learned[d]! <= high[d]!).toBe(true)
  }
  expect(learned[9]).toBeLessThan(plan[9]! - 0.05)
  expect(atRisk[0]).toBe(40)
  for (let d = 1; d < plan.length; d++) expect(atRisk[d]).toBeLessThanOrEqual(atRisk[d - 1]!)
})

test('the band narrows with records, and without any is as wide as the doubt of the plan', () => {
  const widths = [0, 10, 200].map(n => widest(curve(n)))
  expect(widths[0]).toBeGreaterThan(widths[1]!)
  expect(widths[1]).toBeGreaterThan(widths[2]!)
  expect(widths[0]).toBeGreaterThan(0.4)
  expect(widths[2]).toBeLessThan(0.15)
})

test('the same stage is drawn alike, another key by other draws', () => {
  expect(curve(10)).toEqual(curve(10))
  expect(curve(10, 'b').low).not.toEqual(curve(10).low)
})

test('a curve ends where nobody is left to speak of, the later of the two', () => {
  const { plan, learned, low, high, atRisk } = curve(200)
  const days = plan.length
  expect(days).toBeLessThan(DAYS)
  for (const one of [learned, low, high, atRisk]) expect(one).toHaveLength(days)
  expect(Math.max(plan[days - 1]!, learned[days - 1]!)).toBeLessThan(0.01)
  expect(Math.max(plan[days - 2]!, learned[days - 2]!)).toBeGreaterThanOrEqual(0.01)
})
