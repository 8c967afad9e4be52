import { describe, expect, test } from 'vitest'
import { callFacts } from '#lib/domain/call-facts.ts'
import type { NetworkState } from '#lib/domain/network-state.ts'
import { cellKey } from '#lib/domain/stage-cell.ts'
import { findServing, poolsOf } from '#lib/forecast/pools.ts'
import { animalsOf } from '#lib/plan/newcomers.ts'
import { callBackAt, moveQuestion, questionOf } from '#lib/plan/question.ts'
import { TODAY } from '#tests/support/forecasting.ts'
import { learnedOf } from '#tests/support/learned.ts'
import {
  at,
  centreState,
  GROUP,
  HILL,
  holdFor,
  networkState,
  plannedStage,
  residentState,
  SHORE,
  ZONE,
} from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const facts = callFacts.parse({ species: 'blackbird', conditions: [{ slug: 'cat-attack' }], age: 'adult' })
const animals = animalsOf(facts, trade, 11)!
const shore = centreState(SHORE)
const ask = (change: Partial<NetworkState> = {}, now = at(0, 12), where = shore) => {
  const state = networkState(change)
  const pools = poolsOf(state, TODAY, 10)
  return { pools, question: questionOf(facts, animals, where, { now, today: TODAY, state, trade, pools }) }
}
const centreIn = ({ question }: ReturnType<typeof ask>, id = SHORE) =>
  question.centres.find(centre => centre.id === String(id))!

describe('a door', () => {
  test('is judged at the hour of arrival, not of the call', () => {
    const atTen = ask({}, at(0, 17, 50))
    expect(centreIn(atTen).door).toEqual({ kind: 'open' })
    expect(centreIn(atTen, HILL).road.minutes).toBeGreaterThan(10)
    expect(centreIn(atTen, HILL).door).toEqual({ kind: 'shut', opensAt: { day: TODAY + 1, clock: '08:00' } })
  })

  test('that is shut at the call may be open on arrival', () => {
    expect(centreIn(ask({}, at(0, 7, 50))).door.kind).toBe('shut')
    expect(centreIn(ask({}, at(0, 7, 50)), HILL).door.kind).toBe('open')
  })

  test('on call says whom to ring', () => {
    const centres = [
      centreState(SHORE, { nightDoor: 'on-call', nightName: 'The night desk', nightPhone: '01632 960007' }),
    ]
    expect(centreIn(ask({ centres }, at(0, 23))).door).toEqual({
      kind: 'on-call',
      name: 'The night desk',
      phone: '01632 960007',
    })
  })
})

describe('what is left of an offer', () => {
  const offering = (places: number, change: Partial<NetworkState> = {}) =>
    centreIn(ask({ centres: [centreState(SHORE, { offers: [{ group: GROUP, places }] })], ...change })).offer

  test('is less what is on the way and what came since the count', () => {
    const onTheWay = residentState(8, { keeper: 'driver', centreId: null, enclosureId: null })
    const since = residentState(9, { since: at(0, 9) })
    const residents = [residentState(7), onTheWay, since]
    expect(offering(4, { residents, claims: [holdFor(8, 12)] })).toEqual({ places: 4, left: 2 })
    expect(offering(1, { residents, claims: [holdFor(8, 12)] })).toEqual({ places: 1, left: 0 })
  })

  test('is not touched by other groups or by a hold elsewhere', () => {
    const residents = [
      residentState(8, { keeper: 'driver', centreId: null, enclosureId: null }),
      residentState(9, { species: 'kestrel', since: at(0, 9) }),
    ]
    expect(offering(4, { residents, claims: [holdFor(8, 21)] })).toEqual({ places: 4, left: 4 })
  })

  test('is nothing where nothing is offered', () => {
    expect(centreIn(ask()).offer).toBeNull()
  })
})

test('homes are the pools the forecast counts in', () => {
  const asked = ask()
  for (const id of [SHORE, HILL]) {
    const found = animals.needs.map(need => findServing(asked.pools, id, need) ?? null)
    expect(centreIn(asked, id).homes).toEqual(found)
    expect(found.some(home => home !== null)).toBe(true)
  }
  expect(centreIn(asked).homes.at(-1)).toBeNull()
})

test('free tonight leaves out what is held from then on', () => {
  const free = (change: Partial<NetworkState> = {}) =>
    centreIn(ask(change)).freeTonight.map(one => one.placeNo)
  expect(free()).toEqual([1, 2, 3])
  expect(free({ claims: [holdFor(8, 13, { placeNo: 2 })] })).toEqual([1, 3])
})

test('the stages asked for are those of the plan, with its estimates', () => {
  const { stages } = ask().question.animals
  expect(stages.map(stage => stage.stage)).toEqual(animals.plan.stages.map(stage => stage.stage))
  // The same objects: the laws of stages are remembered by them.
  for (const [n, stage] of stages.entries()) expect(stage.estimate).toBe(animals.plan.stages[n]?.estimate)
})

test('a stage that was learned of is asked for as records say it ends', () => {
  const one = learnedOf({ passes: [0.5] }, { key: cellKey(animals.plan.planIds, 2, null) })
  const learned = { ...trade, learned: new Map([[one.key, one]]) }
  const state = networkState()
  const pools = poolsOf(state, TODAY, 10)
  const moment = { now: at(0, 12), today: TODAY, state, trade: learned, pools }
  const { stages } = questionOf(facts, animals, shore, moment).animals
  expect(stages.map(({ estimate }) => estimate.learned)).toEqual(
    stages.map((_, no) => (no === 1 ? one : undefined)),
  )
  const planned = animals.plan.stages.map((stage, no) =>
    plannedStage(no + 1, stage.stage, stage.housing, { estimate: stage.estimate }),
  )
  const resident = residentState(7, { planIds: [...animals.plan.planIds], stages: planned })
  const again = moveQuestion(resident, planned.slice(1), moment)
  expect(again?.animals.stages[0]?.estimate).toBe(stages[1]?.estimate)
})

test('a call-back is at eight, today if that is still to come', () => {
  expect(callBackAt(at(0, 7, 59), ZONE)).toEqual(at(0, 8))
  expect(callBackAt(at(0, 8), ZONE)).toEqual(at(1, 8))
})
