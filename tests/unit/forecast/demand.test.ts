import { expect, test } from 'vitest'
import { buildDemand, classOf, demandWith, demandWithout } from '#lib/forecast/demand.ts'
import { arrivalCompany } from '#lib/forecast/model.ts'
import { summarise } from '#lib/forecast/pool-forecast.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { newWork } from '#lib/numerics/work.ts'
import { need, pool, steady } from '../../support/forecasting.ts'

const claim = (casualtyId: string, p: number, company: string, stock: number) => ({
  need: need({ company, stock }),
  member: { casualtyId, count: 1, presence: steady(p) },
})
const several = (chances: readonly number[], company: string, stock: number) =>
  chances.map((p, i) => claim(`${company}${i}`, p, company, stock))

const GROUPS = [
  ...several([0.9, 0.9, 0.9, 0.9, 0.9, 0.9, 0.5, 0.5, 0.5, 0.5], 'fledglings', 6),
  ...several([0.8, 0.7, 0.6, 0.5, 0.4], 'thrushes', 4),
  claim('heron', 0.9, 'alone:heron', 3),
  claim('owl', 0.3, 'alone:owl', 3),
]

test('fledglings by six, thrushes by four, two that must be alone, three and four aviaries', () => {
  const at = (capacity: number) =>
    summarise(buildDemand(pool('p', [capacity], 1), 1, GROUPS, newWork()), newWork())
  expect(at(3).shortByDay[0]).toBeCloseTo(0.7900591217445, 12)
  expect(at(4).shortByDay[0]).toBeCloseTo(0.245748080682, 12)
  expect(at(3).expectedShortByDay[0]).toBeCloseTo(1.0498410239625, 12)
})

test('keeps all mass', () => {
  const [only] = buildDemand(pool('p', [3], 1), 1, GROUPS, newWork()).classes
  expect(Math.abs(neumaierSum(only!.wanted.pmf) - 1)).toBeLessThan(1e-13)
})

test('an arrival in isolation wants enclosures for itself alone', () => {
  const rates = [steady(0), steady(0), steady(0), steady(0), steady(0.25)]
  const brood = { need: need({ company: arrivalCompany('brood'), stock: 2 }), rates }
  const [only] = buildDemand(pool('p', [3], 1), 1, [brood], newWork()).classes
  // One event brings five, which take three enclosures of two.
  const { pmf } = only!.wanted
  expect(pmf[0]).toBeCloseTo(Math.exp(-0.25), 14)
  expect(pmf[3]).toBeCloseTo(0.25 * Math.exp(-0.25), 14)
  expect(pmf[1]! + pmf[2]!).toBe(0)
})

test('sizes fall into the smallest step that fits, the largest where none does', () => {
  const three = pool('p', [1, 1, 1], 1)
  expect([1, 2, 2.5, 4, 9].map(size => classOf(three, size))).toEqual([0, 0, 1, 2, 2])
})

test('one more and one fewer are a rebuild', () => {
  const made = buildDemand(pool('p', [3], 1), 1, GROUPS, newWork())
  const rebuilt = buildDemand(pool('p', [3], 1), 1, [...GROUPS, claim('new', 0.6, 'thrushes', 4)], newWork())
  const grown = demandWith(
    made,
    need({ company: 'thrushes', stock: 4 }),
    claim('new', 0.6, '', 1).member,
    newWork(),
  )
  const back = demandWithout(grown, 'new', newWork())
  for (let k = 0; k <= 6; k++) {
    expect(grown.classes[0]!.wanted.pmf[k]).toBeCloseTo(rebuilt.classes[0]!.wanted.pmf[k]!, 13)
    expect(back.classes[0]!.wanted.pmf[k]).toBeCloseTo(made.classes[0]!.wanted.pmf[k]!, 13)
  }
  expect(demandWithout(made, 'nobody', newWork())).toBe(made)
})

test('refuses half an animal to an enclosure', () => {
  const half = [claim('a', 0.5, 'thrushes', 1.5)]
  expect(() => buildDemand(pool('p', [3], 1), 1, half, newWork())).toThrow(
    'stock needs a whole number of at least 1, got 1.5',
  )
})
