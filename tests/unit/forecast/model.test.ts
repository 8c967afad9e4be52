import { expect, test } from 'vitest'
import { companyOf } from '#lib/forecast/demand.ts'
import { aloneCompany, arrivalCompany, DIED_BY_DEFAULT } from '#lib/forecast/model.ts'
import { lengthTails } from '#lib/forecast/stage-law.ts'
import { need } from '../../support/forecasting.ts'

test('an animal that must be alone takes an enclosure whatever the stocking says', () => {
  expect(companyOf(need({ company: aloneCompany('heron-42'), stock: 4 })).stock).toBe(1)
})

test('one arrival shares with itself and with no other', () => {
  const [one, other] = ['a', 'b'].map(id => companyOf(need({ company: arrivalCompany(id), stock: 4 })))
  expect(one!.key).not.toBe(other!.key)
  expect(one!.stock).toBe(4)
})

// Molina-Lopez et al. 2013, raptors that died of any cause: median 2 days, 90th percentile 31.
test('death where the plan says nothing: half within two days, nine in ten within 31', () => {
  const tails = lengthTails(DIED_BY_DEFAULT, 40)
  expect(1 - tails[1]!).toBeGreaterThan(0.4)
  expect(1 - tails[1]!).toBeLessThan(0.5)
  expect(1 - tails[30]!).toBeCloseTo(0.9, 2)
})
