import { expect, test } from 'vitest'
import { buildDemand } from '#lib/forecast/demand.ts'
import { sliceOf, summarise } from '#lib/forecast/pool-forecast.ts'
import { newWork } from '#lib/numerics/work.ts'
import { need, pool, steady } from '../../support/forecasting.ts'

const claim = (id: string, p: number, size = 2) => ({
  need: need({ size }),
  member: { casualtyId: id, count: 1, presence: steady(p) },
})

test('quantiles are the smallest count that reaches their level', () => {
  const claims = [0.1, 0.2, 0.3, 0.4, 0.5].map((p, i) => claim(`c${i}`, p))
  const { thresholds } = summarise(buildDemand(pool('p', [2], 1), 1, claims, newWork()), newWork())
  const [all] = thresholds
  // Cumulated: 0.1512, 0.5226, 0.8500, 0.9774.
  expect(
    [all!.p10ByDay, all!.p25ByDay, all!.p50ByDay, all!.p75ByDay, all!.p90ByDay].map(days => days[0]),
  ).toEqual([0, 1, 1, 2, 3])
  expect(all!.meanByDay[0]).toBeCloseTo(1.5, 14)
  expect(all!.shortByDay[0]).toBeCloseTo(0.15, 13)
})

test('thresholds count an animal in every class that is no larger than its own', () => {
  const claims = [claim('small', 0.5, 2), claim('large', 0.25, 3)]
  const { thresholds, shortByDay } = summarise(
    buildDemand(pool('p', [0, 1], 1), 1, claims, newWork()),
    newWork(),
  )
  expect(thresholds.map(({ size }) => size)).toEqual([2, 3])
  expect(thresholds.map(({ meanByDay }) => meanByDay[0])).toEqual([0.75, 0.25])
  expect(thresholds.map(({ capacityByDay }) => capacityByDay[0])).toEqual([1, 1])
  expect(shortByDay[0]).toBeCloseTo(0.125, 14)
})

test('classes of a chain are not independent: at least one is short is not a product', () => {
  const claims = ['a', 'b', 'c'].map(id => claim(id, 0.6, 2)).concat(['d', 'e'].map(id => claim(id, 0.5, 3)))
  const made = summarise(buildDemand(pool('p', [1, 1], 1), 1, claims, newWork()), newWork())
  const [whole, large] = made.thresholds
  const independent = 1 - (1 - whole!.shortByDay[0]!) * (1 - large!.shortByDay[0]!)
  expect(made.shortByDay[0]).toBeLessThan(independent)
  expect(made.shortByDay[0]).toBeGreaterThanOrEqual(Math.max(whole!.shortByDay[0]!, large!.shortByDay[0]!))
})

test('a slice is one day of the table', () => {
  const made = buildDemand(pool('p', [1], 1), 1, [claim('a', 0.25)], newWork())
  const { pmf, at, top } = sliceOf(made.classes[0]!.wanted, 0)
  expect(Array.from(pmf.subarray(at, at + top + 1))).toEqual([0.75, 0.25])
})
