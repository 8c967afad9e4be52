import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { ResidentState } from '#lib/domain/network-state.ts'
import { forecast } from '#lib/forecast/forecast.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { mergedNetwork } from '#lib/forecast/merged-network.ts'
import { chancesBySeries, listSeries, presentDemand, wantedNow } from '#lib/forecast/present-demand.ts'
import { TODAY } from '#tests/support/forecasting.ts'
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
const enclosures = [
  enclosureState(11, SHORE, 'hospital-cage', { sizeRank: 2, stocking: { thrushes: 3, crows: 1 } }),
  enclosureState(12, SHORE, 'hospital-cage', { sizeRank: 5, stocking: { thrushes: 5, crows: 2 } }),
  enclosureState(13, SHORE, 'isolation', { sizeRank: 5, stocking: { thrushes: 2, crows: 1 } }),
  enclosureState(22, HILL, 'sheltered-aviary', { lengthM: 3, stocking: { thrushes: 6, crows: 3 } }),
  enclosureState(23, HILL, 'sheltered-aviary', { lengthM: 12, stocking: { thrushes: 6, crows: 3 } }),
  enclosureState(24, HILL, 'flight-aviary', { lengthM: 12, stocking: { thrushes: 6 } }),
]
const STAGES = [
  plannedStage(1, 'quarantine', 'isolation'),
  plannedStage(2, 'restricted activity', 'hospital-cage'),
  plannedStage(3, 'limited activity', 'sheltered-aviary'),
  plannedStage(4, 'unlimited activity', 'sheltered-aviary', { housingAlso: ['flight-aviary'] }),
]
/** Nothing can happen any more today: nobody leaves, nobody comes. */
const window = { today: TODAY, horizonDays: 2, shareOfTodayLeft: 0, asAt: at(0, 0) }

const resident = (id: number) =>
  fc
    .record({
      species: fc.constantFrom(['blackbird', 'thrushes'], ['carrion-crow', 'crows']),
      isAlone: fc.boolean(),
      arrivalId: fc.integer({ min: 1, max: 3 }),
      began: fc.constantFrom(null, 1, 2, 3, 4),
      isReady: fc.boolean(),
    })
    .map(
      ({ species: [species = '', company = ''], isAlone, arrivalId, began, isReady }): ResidentState =>
        residentState(id, {
          species,
          company,
          isAlone,
          arrivalId,
          stages: STAGES,
          began: began === null ? null : { no: began, at: at(-2, 12) },
          ready: isReady && began !== null ? { no: began, at: at(-1, 12) } : null,
        }),
    )
const residents = fc
  .integer({ min: 0, max: 25 })
  .chain(n => fc.tuple(...Array.from({ length: n }, (_, i) => resident(i + 1))))

describe('the enclosures that animals want now', () => {
  it('are what a forecast says of tonight when nobody can leave or come', () => {
    fc.assert(
      fc.property(residents, some => {
        const { input, pools, itineraryById } = forecastInput(
          mergedNetwork(networkState({ enclosures, residents: some })),
          trade,
          window,
        )
        const chances = chancesBySeries(forecast(input))
        const now = presentDemand([...itineraryById.values()].flatMap(one => wantedNow(one, pools) ?? []))
        for (const series of listSeries(pools)) {
          expect(chances(series, 0)[now.get(series) ?? 0]).toBeCloseTo(1, 12)
        }
        expect([...now.keys()].filter(series => !listSeries(pools).includes(series))).toEqual([])
      }),
      { numRuns: 60 },
    )
  })

  it('round up by company: four at three an enclosure want two, one alone another', () => {
    const wanted = (company: string, stock: number) => ({ series: 'a', company, stock })
    const four = Array.from({ length: 4 }, () => wanted('thrushes', 3))
    expect(presentDemand([...four, wanted('singly', 1), { ...wanted('thrushes', 3), series: 'b' }])).toEqual(
      new Map([
        ['a', 3],
        ['b', 1],
      ]),
    )
  })

  it('are none where no pool of the network serves the stage', () => {
    const { pools, itineraryById } = forecastInput(
      mergedNetwork(
        networkState({
          enclosures,
          residents: [residentState(1, { stages: [plannedStage(1, 'critical care', 'intensive-care')] })],
        }),
      ),
      trade,
      window,
    )
    expect([...itineraryById.values()].map(one => wantedNow(one, pools))).toEqual([undefined])
  })

  it('of a series that no pool has are refused', () => {
    const { input } = forecastInput(networkState(), trade, window)
    expect(() => chancesBySeries(forecast(input))('no such', 0)).toThrow(RangeError)
  })
})
