import { describe, expect, test } from 'vitest'
import type { NetworkState, ResidentState } from '#lib/domain/network-state.ts'
import { itineraryOf } from '#lib/forecast/itineraries.ts'
import { poolsOf } from '#lib/forecast/pools.ts'
import { TODAY } from '#tests/support/forecasting.ts'
import {
  at,
  centreState,
  enclosureState,
  HILL,
  holdFor,
  networkState,
  plannedStage,
  residentState,
  SHORE,
} from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const wayOf = (resident: ResidentState, change: Partial<NetworkState> = {}) => {
  const state = networkState({ residents: [resident], ...change })
  return itineraryOf(resident, state, trade, poolsOf(state, TODAY, 10), TODAY, at(0, 12))
}
const poolsIn = (resident: ResidentState, change: Partial<NetworkState> = {}) =>
  wayOf(resident, change)?.stages.map(stage => stage.poolId)
const [first, second] = residentState(7).stages

describe('where a stage is spent', () => {
  test('now: where the animal is, whatever the plan had expected', () => {
    const resident = residentState(7, { stages: [{ ...first!, centreId: HILL }, second!] })
    expect(poolsIn(resident)?.[0]).toBe('1:hospital-cage')
  })

  test('now: not where it is when that housing does not serve its stage', () => {
    expect(poolsIn(residentState(7, { enclosureId: 13 }))?.[0]).toBe('1:hospital-cage')
  })

  test('later: at the nearest centre with such housing, by the road', () => {
    const third = {
      centres: [centreState(SHORE), centreState(HILL), centreState(3)],
      enclosures: [...networkState().enclosures, enclosureState(31, 3, 'sheltered-aviary', { lengthM: 6 })],
    }
    expect(poolsIn(residentState(7), third)).toEqual(['1:hospital-cage', '2:sheltered-aviary'])
    const travel = [{ from: SHORE, to: 3, km: 1, minutes: 2 }]
    expect(poolsIn(residentState(7), { ...third, travel })).toEqual(['1:hospital-cage', '3:sheltered-aviary'])
  })

  test('later: not where a movement stop shuts the door', () => {
    const stop = {
      siteState: 'no-movement',
      coversClass: null,
      startsAt: at(-1, 9),
      endsAt: null,
      reason: '',
    } as const
    const centres = [centreState(SHORE), centreState(HILL, { stop })]
    expect(poolsIn(residentState(7), { centres })).toEqual(['1:hospital-cage', null])
  })

  test('nowhere: no pool where nobody has such housing', () => {
    const stages = [first!, plannedStage(2, 'limited activity', 'pool-pen')]
    expect(poolsIn(residentState(7, { stages }))).toEqual(['1:hospital-cage', null])
  })
})

test('a stage waits for its checks as was stored with the animal', () => {
  const stages = [{ ...first!, estimate: { ...first!.estimate, leastDays: 21 } }, second!]
  const resident = residentState(7, { stages })
  expect(wayOf(resident)?.stages.map(stage => stage.estimate.leastDays)).toEqual([21, undefined])
})

describe('how far it is', () => {
  test('in the stage it began, since the day it began it', () => {
    const way = wayOf(residentState(7, { began: { no: 2, at: at(-2, 9) } }))
    expect(way).toMatchObject({ firstStage: 1, enteredStageOn: TODAY - 2, isReady: false, count: 1 })
  })

  test('ready is of the stage it is in, not of one before', () => {
    expect(wayOf(residentState(7, { ready: { no: 1, at: at(0, 9) } }))?.isReady).toBe(true)
    const began = { no: 2, at: at(-1, 9) }
    expect(wayOf(residentState(7, { began, ready: { no: 1, at: at(-1, 8) } }))?.isReady).toBe(false)
  })

  test('on the way: from the day it is expected, at the centre that holds its place', () => {
    const resident = residentState(7, { keeper: 'finder', centreId: null, enclosureId: null, began: null })
    const claims = [holdFor(7, 21, { expectedAt: at(1, 9) })]
    expect(wayOf(resident, { claims })).toMatchObject({ enteredStageOn: TODAY + 1, unseenDays: 0 })
    expect(poolsIn(resident, { claims })?.[0]).toBe('2:hospital-cage')
  })

  test('unseen since the count or since what was entered, the later', () => {
    const centres = [centreState(SHORE, { countedAt: at(-6, 7) }), centreState(HILL)]
    expect(wayOf(residentState(7), { centres })?.unseenDays).toBe(3)
    expect(wayOf(residentState(7))?.unseenDays).toBe(0)
    // A day has passed once a whole day has, to the minute.
    const countedBefore = (days: number, minutes: number) =>
      wayOf(residentState(7, { since: at(-20, 9), began: null }), {
        centres: [
          centreState(SHORE, {
            countedAt: new Date(at(0, 12).getTime() - days * 86_400_000 + minutes * 60_000),
          }),
          centreState(HILL),
        ],
      })?.unseenDays
    expect(countedBefore(1, 1)).toBe(0)
    expect(countedBefore(1, 0)).toBe(1)
    expect(countedBefore(3, 1)).toBe(2)
  })
})

test('without a plan there is no way ahead', () => {
  expect(wayOf(residentState(7, { stages: [] }))).toBeUndefined()
})
