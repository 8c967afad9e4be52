import fc from 'fast-check'
import { expect, test } from 'vitest'
import { buildDemand, demandWith } from '#lib/forecast/demand.ts'
import { summarise } from '#lib/forecast/pool-forecast.ts'
import { priceByDay } from '#lib/forecast/price.ts'
import { newWork } from '#lib/numerics/work.ts'
import { need, pool, steady } from '../../support/forecasting.ts'

const STOCK = { thrushes: 3, finches: 2, 'alone:x': 2 }
type Company = keyof typeof STOCK
const animal = fc.record({
  p: fc.double({ min: 0, max: 1, noNaN: true }),
  size: fc.integer({ min: 1, max: 4 }),
  company: fc.constantFrom<Company>('thrushes', 'finches', 'alone:x'),
})
const needOf = ({ size, company }: { size: number; company: Company }) =>
  need({ size, company, stock: STOCK[company] })

test('is what one more animal that is there for certain adds to the expected shortage', () => {
  const some = fc.array(animal, { maxLength: 14 })
  const spaces = fc.array(fc.nat(3), { minLength: 1, maxLength: 3 })
  fc.assert(
    fc.property(some, spaces, animal, (animals, capacities, newcomer) => {
      const place = pool('p', capacities, 1)
      const claims = animals.map((each, i) => ({
        need: needOf(each),
        member: { casualtyId: `c${i}`, count: 1, presence: steady(each.p) },
      }))
      const made = buildDemand(place, 1, claims, newWork())
      const wanted = needOf(newcomer)
      const [found] = priceByDay(made, wanted)
      if (wanted.size > capacities.length + 1) expect(found).toBe(1)
      else {
        const grown = demandWith(
          made,
          wanted,
          { casualtyId: 'new', count: 1, presence: steady(1) },
          newWork(),
        )
        const rise =
          summarise(grown, newWork()).expectedShortByDay[0]! -
          summarise(made, newWork()).expectedShortByDay[0]!
        expect(found).toBeCloseTo(rise, 12)
      }
    }),
  )
})

test('a companion that fits in costs nothing while there is room in its enclosure', () => {
  const thrushes = { company: 'thrushes', stock: 3 }
  const two = ['a', 'b'].map(casualtyId => ({
    need: need(thrushes),
    member: { casualtyId, count: 1, presence: steady(1) },
  }))
  const made = buildDemand(pool('p', [1], 1), 1, two, newWork())
  expect(priceByDay(made, need(thrushes))[0]).toBe(0)
  expect(priceByDay(made, need({ company: 'finches', stock: 3 }))[0]).toBe(1)
})
