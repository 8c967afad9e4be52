import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import type { ForecastInput, PathStage } from '#lib/forecast/model.ts'
import { addedShortage } from '#lib/plan/added-shortage.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { CENTRE_IDS, estimate, forecastInput, need, pool, resident, TODAY } from '#tests/support/placement.ts'

/** Expected places short over all classes and days of a whole forecast, built anew. */
function shortageOf(input: ForecastInput): number {
  const made = forecast(input)
  return input.pools
    .map(({ id }) => poolForecast(getDemand(made, id)).expectedShortByDay)
    .reduce((sum, days) => sum + days.reduce((total, short) => total + short, 0), 0)
}

const networks = fc.record({
  capacities: fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 6, maxLength: 6 }),
  turnaroundDays: fc.integer({ min: 0, max: 2 }),
  residents: fc.array(fc.record({ pool: fc.nat(5), medianDays: fc.integer({ min: 2, max: 40 }) }), {
    maxLength: 8,
  }),
  path: fc.array(fc.nat(5), { minLength: 1, maxLength: 3 }),
  stock: fc.integer({ min: 1, max: 3 }),
  count: fc.integer({ min: 1, max: 10 }),
})

describe('addedShortage', () => {
  it('equals the rise of the forecast built anew with the animals in it', () => {
    fc.assert(
      fc.property(networks, ({ capacities, turnaroundDays, residents, path, stock, count }) => {
        const pools = capacities.map((capacity, at) => ({
          ...pool(CENTRE_IDS[at % 3]!, at < 3 ? 'hospital-cage' : 'flight-aviary', capacity, 40),
          turnaroundDays,
        }))
        const input = forecastInput(
          pools,
          residents.map((each, i) =>
            resident(`r${i}`, pools[each.pool]!.housing, pools[each.pool]!.id, each.medianDays),
          ),
          40,
        )
        const stages: PathStage[] = path.map((at, i) => ({
          estimate: estimate('restricted activity', 4 + i),
          need: need(pools[at]!.housing, 1, 'kestrels', stock),
          poolId: pools[at]!.id,
        }))
        const outlook = outlookOf(forecast(input))
        const walk = outlook.walk(
          stages.map(each => each.estimate),
          TODAY,
        )
        const added = addedShortage(outlook, walk, stages, { count, entersOn: TODAY, fromDay: 0 })
        const newcomers = {
          casualtyId: 'new',
          count,
          stages,
          firstStage: 0,
          enteredStageOn: TODAY,
          isReady: false,
          unseenDays: 0,
        }
        const rise =
          shortageOf({ ...input, itineraries: [...input.itineraries, newcomers] }) - shortageOf(input)
        expect(added.withinHorizon).toBeCloseTo(rise, 9)
        expect(added.withoutHousing).toBe(0)
      }),
      { numRuns: 120 },
    )
  })

  it('counts days without housing apart, and days after the horizon at its last price', () => {
    const outlook = outlookOf(forecast(forecastInput([pool('ash', 'hospital-cage', 0, 10)], [], 10)))
    const path: PathStage[] = ['ash/hospital-cage', null].map(poolId => ({
      estimate: estimate('restricted activity', 10),
      need: need('hospital-cage'),
      poolId,
    }))
    const walk = outlook.walk(
      path.map(each => each.estimate),
      TODAY,
    )
    const added = addedShortage(outlook, walk, path, { count: 2, entersOn: TODAY, fromDay: 0 })
    const within = walk[0]!.present.reduce((sum, p) => sum + p, 0)
    expect(added.withinHorizon).toBeCloseTo(2 * within, 9)
    expect(added.beyond).toBeCloseTo(2 * walk[0]!.daysBeyond, 9)
    const second = walk[1]!.present.reduce((sum, p) => sum + p, 0) + walk[1]!.daysBeyond
    expect(added.withoutHousing).toBeCloseTo(2 * second, 9)
  })
})
