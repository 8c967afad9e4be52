import fc from 'fast-check'
import { expect, test } from 'vitest'
import { buildCompany, type Company, type Member, withMember, withoutMember } from '#lib/forecast/company.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { newWork } from '#lib/numerics/work.ts'
import { steady } from '../../support/forecasting.ts'

const member = (casualtyId: string, p: number, count = 1): Member => ({
  casualtyId,
  count,
  presence: steady(p, 2),
})
const dayOf = ({ counts }: Company, day = 0) =>
  counts.pmf.subarray(day * counts.stride, day * counts.stride + counts.top[day]! + 1)
const build = (members: readonly Member[], rates: readonly number[] = []) =>
  buildCompany(
    'thrushes',
    4,
    members,
    rates.map(rate => steady(rate, 2)),
    2,
    newWork(),
  )

test('residents and newcomers together have the mean and variance of their sum', () => {
  const pmf = dayOf(build([member('a', 0.3), member('b', 0.8), member('litter', 0.5, 3)], [2, 0.5]))
  const mean = neumaierSum(pmf.map((p, n) => p * n))
  expect(mean).toBeCloseTo(0.3 + 0.8 + 1.5 + 2 + 1, 12)
  expect(neumaierSum(pmf.map((p, n) => p * n * n)) - mean ** 2).toBeCloseTo(0.21 + 0.16 + 0.75 + 2 + 2, 11)
  expect(Math.abs(neumaierSum(pmf) - 1)).toBeLessThan(1e-13)
})

test('adding and taking out equal a rebuild within 1e-10, whatever the chances', () => {
  const chance = fc.double({ min: 0, max: 1, noNaN: true })
  fc.assert(
    fc.property(
      fc.array(chance, { minLength: 1, maxLength: 30 }),
      fc.integer({ min: 1, max: 6 }),
      chance,
      (chances, count, p) => {
        const others = chances.map((q, i) => member(`c${i}`, q))
        const one = member('x', p, count)
        const rebuilt = dayOf(build([...others, one], [1.5]))
        const grown = withMember(build(others, [1.5]), one, newWork())
        const back = dayOf(withoutMember(build([...others, one], [1.5]), one, newWork()))
        const before = dayOf(build(others, [1.5]))
        for (let n = 0; n < rebuilt.length; n++)
          expect(Math.abs((dayOf(grown)[n] ?? 0) - rebuilt[n]!)).toBeLessThan(1e-12)
        for (let n = 0; n < before.length; n++)
          expect(Math.abs((back[n] ?? 0) - before[n]!)).toBeLessThan(1e-10)
      },
    ),
  )
})

test('takes out exactly the member asked for and leaves the old company as it was', () => {
  const company = build([member('a', 0.3), member('b', 0.8)])
  const frozen = Array.from(company.counts.pmf)
  const rest = withoutMember(company, company.members[1]!, newWork())
  expect(rest.members.map(({ casualtyId }) => casualtyId)).toEqual(['a'])
  expect(dayOf(rest)[1]).toBeCloseTo(0.3, 14)
  expect(Array.from(company.counts.pmf)).toEqual(frozen)
})

test('who cannot be there changes nothing', () => {
  expect(Array.from(dayOf(build([member('a', 0)])))).toEqual([1])
})
