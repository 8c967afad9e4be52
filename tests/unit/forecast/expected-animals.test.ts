import { describe, expect, it } from 'vitest'
import { buildDemand } from '#lib/forecast/demand.ts'
import { expectedAnimals } from '#lib/forecast/expected-animals.ts'
import { newWork } from '#lib/numerics/work.ts'
import { need, pool, steady } from '#tests/support/forecasting.ts'

const member = (casualtyId: string, p: number, count = 1) => ({ casualtyId, count, presence: steady(p, 2) })

describe('expected animals', () => {
  it('are the chances of those in care and the rates of those to come, whatever shares an enclosure', () => {
    const demand = buildDemand(
      pool('p', [3, 2], 2),
      2,
      [
        { need: need({ stock: 4 }), member: member('a', 0.4) },
        { need: need({ stock: 4 }), member: member('b', 0.5, 3) },
        { need: need({ size: 3, company: 'falcons' }), member: member('c', 0.25) },
        // Events a day with one animal there, with two there: 0.3 + 2 x 0.1 animals.
        { need: need({ stock: 4 }), rates: [steady(0.3, 2), steady(0.1, 2)] },
      ],
      newWork(),
    )
    const { all, unknown } = expectedAnimals(demand, 1)
    expect(unknown).toBeCloseTo(0.5, 12)
    expect(all).toBeCloseTo(0.4 + 1.5 + 0.25 + 0.5, 12)
  })

  it('are nobody in an empty pool, and need a day of the horizon', () => {
    const demand = buildDemand(pool('p', [1], 2), 2, [], newWork())
    expect(expectedAnimals(demand, 0)).toEqual({ all: 0, unknown: 0 })
    expect(() => expectedAnimals(demand, 2)).toThrow(RangeError)
  })
})
