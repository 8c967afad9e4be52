import { describe, expect, test } from 'vitest'
import { askedAgain, stageToPlace } from '#lib/domain/coming-stages.ts'
import { plannedStage, residentState } from '#tests/support/network-state.ts'

const NOW = new Date('2026-06-10T12:00:00Z')
const BEGAN = new Date('2026-06-01T08:00:00Z')
const READY = new Date('2026-06-09T08:00:00Z')
const inSecond = residentState(4, {
  stages: [
    plannedStage(1, 'restricted activity', 'hospital-cage'),
    plannedStage(2, 'limited activity', 'sheltered-aviary'),
    plannedStage(3, 'unlimited activity', 'flight-aviary'),
  ],
  began: { no: 2, at: BEGAN },
})

describe('an animal in care is asked about again', () => {
  test('not while it has a place and its stage goes on', () => {
    expect(askedAgain(inSecond, false, NOW)).toBeNull()
  })

  test('without a proper place, about the stage it is in', () => {
    const asked = askedAgain(inSecond, true, NOW)
    expect(asked).toMatchObject({ why: 'short', enteredAt: BEGAN })
    expect(asked?.stages.map(({ no }) => no)).toEqual([2, 3])
  })

  test('ready, about the stages after it, from now on', () => {
    const asked = askedAgain({ ...inSecond, ready: { no: 2, at: READY } }, true, NOW)
    expect(asked).toMatchObject({ why: 'ready', since: READY, enteredAt: NOW })
    expect(asked?.stages.map(({ no }) => no)).toEqual([3])
  })

  test('not on the road, nor when its last stage is ready', () => {
    expect(askedAgain({ ...inSecond, keeper: 'driver', centreId: null }, true, NOW)).toBeNull()
    const last = { ...inSecond, began: { no: 3, at: BEGAN }, ready: { no: 3, at: READY } }
    expect(askedAgain(last, false, NOW)).toBeNull()
  })

  test('a mark of an earlier stage says nothing of this one', () => {
    expect(askedAgain({ ...inSecond, ready: { no: 1, at: READY } }, false, NOW)).toBeNull()
  })
})

test('where it goes it needs the next stage once this one is ready', () => {
  expect(stageToPlace(inSecond)?.no).toBe(2)
  expect(stageToPlace({ ...inSecond, ready: { no: 2, at: READY } })?.no).toBe(3)
})
