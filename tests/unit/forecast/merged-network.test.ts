import { describe, expect, it } from 'vitest'
import { forecast } from '#lib/forecast/forecast.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { mergedNetwork, mergedRates, WHOLE_NETWORK } from '#lib/forecast/merged-network.ts'
import { TODAY } from '#tests/support/forecasting.ts'
import {
  at,
  centreState,
  enclosureState,
  GROUP,
  HILL,
  holdFor,
  networkState,
  residentState,
  SHORE,
} from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const window = { today: TODAY, horizonDays: 30, shareOfTodayLeft: 1, asAt: at(0, 0) }
const stop = {
  siteState: 'no-movement',
  coversClass: null,
  startsAt: at(-1, 0),
  endsAt: null,
  reason: 'x',
} as const

/** A network with all that must not matter: a stop, a closure, a kept place, cleaning, a stage bound to a centre. */
const state = networkState({
  centres: [centreState(SHORE, { stop }), centreState(HILL, { takes: ['gulls', GROUP] })],
  enclosures: [
    enclosureState(11, SHORE, 'hospital-cage', { turnaroundMin: 2880 }),
    enclosureState(21, HILL, 'hospital-cage', { stocking: { thrushes: 1 } }),
    enclosureState(23, HILL, 'sheltered-aviary', { lengthM: 6 }),
  ],
  closures: [{ enclosureId: 11, startsAt: at(-1, 0), endsAt: null, reason: 'x' }],
  claims: [holdFor(7, 21)],
  residents: [residentState(7), residentState(8, { keeper: 'driver', centreId: null, enclosureId: null })],
})

describe('the network as one centre', () => {
  const merged = mergedNetwork(state)

  it('takes what any centre takes and is never stopped', () => {
    expect(merged.centres).toMatchObject([{ id: WHOLE_NETWORK, takes: ['gulls', GROUP], stop: null }])
    expect([merged.closures, merged.claims, merged.travel]).toEqual([[], [], []])
  })

  it('has every enclosure, open and clean, and every animal', () => {
    expect(merged.enclosures.map(({ id }) => id)).toEqual(state.enclosures.map(({ id }) => id))
    const { input } = forecastInput(merged, trade, window)
    const cages = input.pools.find(({ id }) => id === `${WHOLE_NETWORK}:hospital-cage`)
    expect(cages?.turnaroundDays).toBe(0)
    expect([...(cages?.steps[0]?.capacityByDay ?? [])]).toEqual(Array.from({ length: 30 }, () => 2))
    expect(input.itineraries.map(({ casualtyId }) => casualtyId)).toEqual(['7', '8'])
  })

  it('counts animals by the stocking of all its enclosures: three and one places are two each', () => {
    const { itineraryById } = forecastInput(merged, trade, window)
    expect(itineraryById.get(7)?.stages[0]?.need.stock).toBe(2)
  })

  it('expects all arrivals of a group, months and sizes by the animals of each centre', () => {
    const row = { group: GROUP, monthShares: [1, 0], eventSizes: [1] }
    const { arrivals } = mergedNetwork({
      ...state,
      arrivals: [
        { ...row, centreId: SHORE, animalsPerYear: 30 },
        { ...row, centreId: HILL, animalsPerYear: 10, monthShares: [0, 1], eventSizes: [0, 1] },
        { ...row, centreId: HILL, group: 'gulls', animalsPerYear: 0 },
      ],
    })
    expect(arrivals).toEqual([
      {
        centreId: WHOLE_NETWORK,
        group: GROUP,
        animalsPerYear: 40,
        monthShares: [0.75, 0.25],
        eventSizes: [0.75, 0.25],
      },
    ])
  })

  it('brings all learned arrivals there, whoever had them', () => {
    const events = Float64Array.from({ length: 60 }, () => 0.5)
    const shares = [
      { centreId: SHORE, share: 0.3 },
      { centreId: HILL, share: 0.7 },
    ]
    const usual = [{ planIds: [], share: 1 }]
    const rates = mergedRates({
      group: GROUP,
      run: 'a',
      from: TODAY,
      eventsPerDay: events,
      sizes: { young: [1], grown: [1] },
      shares: { winter: shares, spring: shares, summer: shares, autumn: shares },
      mix: { winter: usual, spring: usual, summer: usual, autumn: usual },
    })
    const { input } = forecastInput(merged, { ...trade, arrivals: new Map([[GROUP, rates]]) }, window)
    const perDay = Array.from({ length: 30 }, (_, d) =>
      input.arrivals.reduce((sum, stream) => sum + (stream.eventsPerDay[d] ?? 0), 0),
    )
    expect(perDay).toEqual(Array.from({ length: 30 }, () => 0.5))
  })

  it('can be forecast', () => {
    expect(forecast(forecastInput(merged, trade, window).input).demands.size).toBe(2)
  })
})
