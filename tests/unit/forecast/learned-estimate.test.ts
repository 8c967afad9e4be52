import { describe, expect, test } from 'vitest'
import { planFor } from '#lib/domain/care-plan-choice.ts'
import { ANY_REASON } from '#lib/domain/condition.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import type { ResidentState } from '#lib/domain/network-state.ts'
import { cellKey, type LearnedHazards } from '#lib/domain/stage-cell.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { heededEstimate } from '#lib/forecast/heeded-estimate.ts'
import { newInputMemory } from '#lib/forecast/input-memory.ts'
import { learnedEstimate, residentEstimate } from '#lib/forecast/learned-estimate.ts'
import { findPassedBy, occupancyOf } from '#lib/forecast/occupancy.ts'
import { TODAY } from '#tests/support/forecasting.ts'
import { learnedOf } from '#tests/support/learned.ts'
import { at, networkState, plannedStage, residentState, ZONE } from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const blackbird = { species: 'blackbird', group: 'thrushes-starlings', class: 'bird', age: 'adult' } as const
const { plan } = planFor(trade, blackbird, [{ condition: ANY_REASON }])
const [first, second] = plan.stages
const admitted = { planIds: plan.planIds, admittedOn: dayOfDate('2026-11-25') }
const keyOf = (no: number) => cellKey(plan.planIds, no, null)
const having = (...learned: LearnedHazards[]): Trade => ({
  ...trade,
  learned: new Map(learned.map(one => [one.key, one])),
})
const one = learnedOf({ passes: [0.5] }, { key: keyOf(1) })

describe('a stage as its plans have it today', () => {
  test('ends by what was learned of its cell, and is one object for one learning', () => {
    const made = learnedEstimate(having(one), admitted, first!.estimate)
    expect(made).toEqual({ ...first!.estimate, learned: one })
    expect(learnedEstimate(having(one), admitted, first!.estimate)).toBe(made)
    const next = { ...one, run: 'run 2' }
    expect(learnedEstimate(having(next), admitted, first!.estimate).learned).toBe(next)
  })

  test('keeps its own check, and is found whatever order the plans or the numbers were stored in', () => {
    const { stage, ...rest } = structuredClone(first!.estimate)
    const own = { ...rest, leastDays: 9, stage }
    expect(learnedEstimate(having(one), admitted, own)).toEqual({ ...own, learned: one })
    const two = { planIds: ['b.plan', plan.planIds[0]!], admittedOn: admitted.admittedOn }
    const plans = [...trade.plans, { ...trade.plans.find(({ id }) => id === plan.planIds[0])!, id: 'b.plan' }]
    const both = { ...having({ ...one, key: cellKey(two.planIds, 1, null) }), plans }
    expect(learnedEstimate(both, two, first!.estimate).learned?.key).toBe(
      `${two.planIds.toSorted().join('+')}|1`,
    )
  })

  test('by season of admission where it ends by a date', () => {
    const hedgehog = trade.plans.find(({ id }) => id === 'underweight-autumn.hedgehog.moderate.none')
    const stages = hedgehog!.stages
    const at = stages.findIndex(({ estimate }) => estimate.ready.kind === 'date gate')
    const autumn = { ...one, key: cellKey([hedgehog!.id], at + 1, 'autumn') }
    const on = (date: string) =>
      learnedEstimate(
        having(autumn),
        { planIds: [hedgehog!.id], admittedOn: dayOfDate(date) },
        stages[at]!.estimate,
      )
    expect(on('2026-11-25').learned).toBe(autumn)
    expect(on('2026-12-25').learned).toBeUndefined()
  })
})

describe('the estimate is returned as it is', () => {
  test.each([
    ['nothing was learned', trade, admitted],
    ['nothing was learned of this stage', having({ ...one, key: keyOf(2) }), admitted],
    ['its plans are not known', having(one), { ...admitted, planIds: [] }],
    ['a plan of its is gone', having(one), { ...admitted, planIds: [...plan.planIds, 'gone'] }],
  ])('%s', (_, known, of) => {
    expect(learnedEstimate(known, of, first!.estimate)).toBe(first!.estimate)
  })

  test('a person changed it for this animal, or setup changed since', () => {
    const two = { ...one, key: keyOf(2) }
    const length = { medianDays: 30, p90Days: 60 }
    const own = { ...second!.estimate, ready: { kind: 'length' as const, length } }
    expect(learnedEstimate(having(two), admitted, own)).toBe(own)
    expect(learnedEstimate(having(two), admitted, second!.estimate).learned).toBe(two)
    const shares = { ...second!.estimate, shares: { onward: 0.5, died: 0.5, euthanased: 0, left: 0 } }
    expect(learnedEstimate(having(two), admitted, shares)).toBe(shares)
  })
})

test('of an animal in care by the plans of its own copy and the day it was admitted', () => {
  const stage = plannedStage(1, first!.stage, first!.housing, { estimate: first!.estimate })
  const resident = residentState(7, { planIds: [...plan.planIds], admittedAt: at(-3, 1), stages: [stage] })
  expect(residentEstimate(having(one), resident, stage, ZONE).learned).toBe(one)
  expect(residentEstimate(having(one), { ...resident, planIds: [] }, stage, ZONE)).toBe(stage.estimate)
})

describe('a vet said how much longer one animal needs', () => {
  const stages = plan.stages.map(({ stage, housing, estimate }, index) =>
    plannedStage(index + 1, stage, housing, { estimate }),
  )
  const began = { no: 1, at: at(-5, 12) }
  const word = { no: 1, at: at(-2, 9), inDays: 14 }
  const resident = (change: Partial<ResidentState> = {}) =>
    residentState(7, { planIds: [...plan.planIds], stages, began, word, ...change })
  const of = (known: Trade, state: ResidentState, no = 1) =>
    residentEstimate(known, state, stages[no - 1]!, ZONE)

  test('its stage is heeded from the day it was said, learned of or not', () => {
    const said = { age: 3, inDays: 14 }
    expect(of(trade, resident())).toEqual(heededEstimate(first!.estimate, said, TODAY - 5))
    expect(of(having(one), resident())).toEqual(
      heededEstimate({ ...first!.estimate, learned: one }, said, TODAY - 5),
    )
  })

  test('no other stage is, and none once another began', () => {
    expect(of(trade, resident(), 2)).toBe(second!.estimate)
    expect(of(trade, resident({ began: { no: 2, at: at(-1, 9) } }))).toBe(first!.estimate)
    expect(of(trade, resident({ began: null }))).toBe(first!.estimate)
  })

  test('two animals of a cell keep each its own, and a third what was learned of the cell', () => {
    const words = [{ ...word, inDays: 5 }, { ...word, inDays: 60 }, null]
    const residents = words.map((said, index) => ({ ...resident({ word: said }), id: index + 1 }))
    const window = { today: TODAY, horizonDays: 60, shareOfTodayLeft: 1, asAt: at(0, 12) }
    const known = having({ ...learnedOf({ passes: Array(200).fill(0.05) }), key: keyOf(1) })
    const memory = newInputMemory()
    const ways = forecastInput(networkState({ residents }), known, window, memory).input.itineraries
    const ends = ways.map(way => findPassedBy(occupancyOf(way, window).stages[0]!, 0.5))
    expect(new Set(ends).size).toBe(3)
    expect(ways.map(({ stages: [now] }) => now!.estimate)).toEqual(
      residents.map(one => residentEstimate(known, one, one.stages[0]!, ZONE)),
    )
    const alone = networkState({ residents: residents.map(one => ({ ...one, word: null })) })
    const without = forecastInput(alone, known, window, memory).input
    expect(without.itineraries[2]).toBe(ways[2])
    expect(without.arrivals).toEqual(forecastInput(networkState({ residents }), known, window).input.arrivals)
  })
})
