import { expect, test } from 'vitest'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { TODAY } from '#tests/support/forecasting.ts'
import { at, networkState, residentState } from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const window = { today: TODAY, horizonDays: 30, shareOfTodayLeft: 0.5, asAt: at(0, 12) }
const residents = [residentState(7), residentState(8, { stages: [] }), residentState(9)]
const basis = forecastInput(networkState({ residents }), trade, window)

test('an animal without a plan is named and in no forecast', () => {
  expect(basis.unplannedIds).toEqual([8])
  expect([...basis.itineraryById.keys()]).toEqual([7, 9])
  expect(basis.input.itineraries.map(one => one.casualtyId)).toEqual(['7', '9'])
})

test('the window is the one asked for, in every pool and stream', () => {
  expect(basis.input).toMatchObject({ today: TODAY, horizonDays: 30, shareOfTodayLeft: 0.5 })
  expect(basis.input.pools.length).toBeGreaterThan(0)
  expect(basis.input.arrivals.length).toBeGreaterThan(0)
  const lengths = [
    ...basis.input.pools.flatMap(pool => pool.steps.map(step => step.capacityByDay.length)),
    ...basis.input.arrivals.map(stream => stream.eventsPerDay.length),
  ]
  expect(new Set(lengths)).toEqual(new Set([30]))
})

test('every place on a way ahead is a pool of the forecast', () => {
  const known = new Set(basis.input.pools.map(pool => pool.id))
  const used = [...basis.input.itineraries, ...basis.input.arrivals]
    .flatMap(({ stages }) => stages.map(stage => stage.poolId))
    .filter(id => id !== null)
  expect(used.length).toBeGreaterThan(0)
  expect(used.filter(id => !known.has(id))).toEqual([])
})

test('the same network gives the same input', () => {
  expect(forecastInput(networkState({ residents }), trade, window)).toEqual(basis)
})
