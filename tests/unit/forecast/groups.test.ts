/**
 * Animals kept together want enclosures, not places: ceil(N / n) at stocking n, a company at a time (common practice, no
 * source). How they are counted with others does not enter.
 */
import { describe, expect, it } from 'vitest'
import { forecast, getDemand } from '#lib/forecast/forecast.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { estimate, length, TODAY } from '#tests/support/forecasting.ts'
import {
  at,
  enclosureState,
  HILL,
  networkState,
  plannedStage,
  residentState,
  SHORE,
} from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const window = { today: TODAY, horizonDays: 7, shareOfTodayLeft: 0.5, asAt: at(0, 12) }
const STAYS = estimate({
  ready: { kind: 'length', length: length(2000, 3000) },
  shares: { onward: 1, died: 0, euthanased: 0, left: 0 },
})
const stays = [plannedStage(1, 'restricted activity', 'hospital-cage', { estimate: STAYS })]
const apart = [plannedStage(1, 'quarantine', 'isolation', { estimate: { ...STAYS, stage: 'quarantine' } })]

type Told = {
  readonly arrivals: readonly number[]
  readonly centreId?: number
  readonly stages?: typeof stays
}

/** Enclosures wanted tomorrow, by pool, with animals of these arrivals in care. */
function wanted(told: readonly Told[], places = 3): Record<string, number> {
  let id = 0
  const residents = told.flatMap(({ arrivals, centreId = SHORE, stages = stays }) =>
    arrivals.map(arrivalId =>
      residentState(++id, {
        arrivalId,
        centreId,
        enclosureId: null,
        stages,
        began: { no: 1, at: at(-3, 12) },
      }),
    ),
  )
  const housing = ['hospital-cage', 'isolation'] as const
  const enclosures = [SHORE, HILL].flatMap(centre =>
    housing.flatMap((type, n) =>
      [0, 1, 2, 3].map(no =>
        enclosureState(centre * 100 + n * 10 + no, centre, type, { stocking: { thrushes: places } }),
      ),
    ),
  )
  const { input } = forecastInput(networkState({ residents, enclosures, arrivals: [] }), trade, window)
  const made = forecast(input)
  return Object.fromEntries(
    input.pools.map(({ id: pool }) => {
      const mean = getDemand(made, pool).classes.reduce((sum, { wanted: { pmf, stride } }) => {
        const day = pmf.subarray(stride, 2 * stride)
        return sum + day.reduce((all, chance, k) => all + k * chance, 0)
      }, 0)
      return [pool, Math.round(mean * 100) / 100]
    }),
  )
}

describe('animals kept together', () => {
  it('want enclosures by the stocking of the enclosures, not places', () => {
    expect(wanted([{ arrivals: [1, 1, 1, 1, 1, 1] }])['1:hospital-cage']).toBe(2)
    expect(wanted([{ arrivals: [1, 1, 1, 1, 1, 1] }], 6)['1:hospital-cage']).toBe(1)
    expect(wanted([{ arrivals: [1, 1, 1, 1, 1, 1] }], 1)['1:hospital-cage']).toBe(6)
  })

  it('of two arrivals share where the company may, whoever is counted with whom', () => {
    expect(wanted([{ arrivals: [1, 1, 1, 1, 2, 2] }])['1:hospital-cage']).toBe(2)
    expect(wanted([{ arrivals: [1, 1, 1, 1, 2] }])['1:hospital-cage']).toBe(2)
  })

  it('of two arrivals do not share in isolation', () => {
    expect(wanted([{ arrivals: [1, 1, 1, 1, 2, 2], stages: apart }])['1:isolation']).toBe(3)
    expect(wanted([{ arrivals: [1, 1, 1, 1, 1, 1], stages: apart }])['1:isolation']).toBe(2)
  })

  it('some of which moved want enclosures at both centres', () => {
    expect(wanted([{ arrivals: [1, 1, 1, 1] }, { arrivals: [1, 1], centreId: HILL }])).toMatchObject({
      '1:hospital-cage': 2,
      '2:hospital-cage': 1,
    })
  })
})
