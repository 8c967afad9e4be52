import { describe, expect, test } from 'vitest'
import { EXITS } from '#lib/domain/housing.ts'
import { type Forecast, forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import { newForecastMemory } from '#lib/forecast/forecast-memory.ts'
import type { ForecastInput, StageEstimate } from '#lib/forecast/model.ts'
import { findPassedBy, goneByDay, occupancyOf } from '#lib/forecast/occupancy.ts'
import { gateDelayOf, stageLaw } from '#lib/forecast/stage-law.ts'
import { withWay } from '#lib/forecast/what-if.ts'
import { newWork } from '#lib/numerics/work.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { referenceNetwork } from '#tests/bench/reference-network.ts'
import {
  estimate,
  input,
  itinerary,
  length,
  OVERWINTERING,
  pool,
  stage,
  TODAY,
} from '../../support/forecasting.ts'
import { hazardsOf, learnedAsPlanned, learnedOf, withEstimates } from '../../support/learned.ts'

const DAYS = 90
const LEARNED_DAYS = 600
const planned = referenceNetwork({ centres: 2, inCare: 40, arrivalsPerDay: 6, days: DAYS }, 3)
const dated = ({ ready }: StageEstimate) => ready.kind === 'date gate'

/** The plan with its median 1.5 times as long, as records would have taught it. */
const longer = (plan: StageEstimate): StageEstimate => {
  if (plan.ready.kind === 'date gate') return plan
  const { medianDays, p90Days } = plan.ready.length
  const slow = {
    ...plan,
    ready: { kind: 'length' as const, length: length(medianDays * 1.5, p90Days * 1.5) },
  }
  return {
    ...plan,
    learned: { ...learnedAsPlanned(slow, LEARNED_DAYS).learned!, key: `${plan.stage} ${medianDays}` },
  }
}

function expectSame(a: Forecast, b: Forecast, most: number) {
  for (const id of b.demands.keys()) {
    const [one, other] = [poolForecast(getDemand(a, id)), poolForecast(getDemand(b, id))]
    for (let d = 0; d < a.input.horizonDays; d++) {
      expect(Math.abs(one.shortByDay[d]! - other.shortByDay[d]!)).toBeLessThan(most)
      expect(Math.abs(one.expectedShortByDay[d]! - other.expectedShortByDay[d]!)).toBeLessThan(most * 100)
    }
  }
}

test("what the plans say, learned, gives the plans' own forecast: stays, checks, litters, groups", () => {
  const same = withEstimates(planned, plan => (dated(plan) ? plan : learnedAsPlanned(plan, LEARNED_DAYS)))
  expect(same.itineraries.some(({ stages }) => stages.some(one => one.estimate.leastDays === 14))).toBe(true)
  expectSame(forecast(same), forecast(planned), 1e-12)
})

describe('a stage that ends by a date', () => {
  const entered = TODAY - 20
  const learned = learnedAsPlanned(OVERWINTERING, LEARNED_DAYS, entered)
  const clock = input({ horizonDays: 200 })
  const way = (some: StageEstimate, change = {}) => ({
    ...itinerary('1', [stage('pen', some), stage('aviary')], { enteredStageOn: entered, ...change }),
  })

  test("for the day it was learned from is the plan's own way", () => {
    const [one, plan] = [occupancyOf(way(learned), clock), occupancyOf(way(OVERWINTERING), clock)]
    for (const [i, { presentByDay, endsByDay, onwardProbability }] of one.stages.entries()) {
      expect(Math.abs(onwardProbability - plan.stages[i]!.onwardProbability)).toBeLessThan(1e-12)
      for (let d = 0; d < 200; d++) {
        expect(Math.abs(presentByDay[d]! - plan.stages[i]!.presentByDay[d]!)).toBeLessThan(1e-12)
        expect(Math.abs(endsByDay.died[d]! - plan.stages[i]!.endsByDay.died[d]!)).toBeLessThan(1e-12)
      }
    }
  })

  test('that is still to come: all stages and endings sum to 1 on each day, and the chance to pass holds all that do', () => {
    const { stages, ...rest } = occupancyOf(
      itinerary('1', [stage('cage'), stage('pen', { ...learned, leastDays: 130 }), stage('aviary')]),
      clock,
    )
    const gone = EXITS.map(exit => goneByDay({ stages, ...rest }, exit))
    for (let d = 0; d < 200; d++) {
      const there = stages.reduce((sum, one) => sum + one.presentByDay[d]!, 0)
      expect(Math.abs(there + gone.reduce((sum, one) => sum + one[d]!, 0) - 1)).toBeLessThan(1e-11)
    }
    const [, pen, aviary] = stages
    const within = pen!.endsByDay.onward.reduce((sum, chance) => sum + chance, 0)
    expect(within).toBeGreaterThan(0.5)
    expect(pen!.onwardProbability).toBeGreaterThanOrEqual(within)
    expect(pen!.onwardProbability).toBeLessThan(pen!.reachProbability)
    expect(aviary!.reachProbability).toBe(pen!.onwardProbability)
  })
})

test('an animal longer in its stage than was ever learned keeps the last chances; one that none can outlast goes at once', () => {
  const slow = estimate({ learned: learnedOf({ died: [0.1, 0.02], passes: [0.2, 0.05] }) })
  const { stages } = occupancyOf(
    itinerary('1', [stage('cage', slow)], { enteredStageOn: TODAY - 500 }),
    input(),
  )
  expect(stages[0]!.presentByDay[1]! / stages[0]!.presentByDay[0]!).toBeCloseTo(0.98 * 0.95, 12)
  const all = estimate({ learned: learnedOf({ passes: [0.2, 1] }) })
  const over = occupancyOf(itinerary('1', [stage('cage', all)], { enteredStageOn: TODAY - 9 }), input())
  expect(over.stages[0]!.endsByDay.onward[0]).toBe(1)
})

describe('records that say 1.5 times the plan', () => {
  const slower = withEstimates(planned, longer)
  const [before, after] = [forecast(planned), forecast(slower)]

  test('draw a stay out', () => {
    const way = (some: StageEstimate) =>
      occupancyOf(
        itinerary('1', [stage('cage', some)], { enteredStageOn: TODAY }),
        input({ horizonDays: 100 }),
      )
    const plan = estimate()
    // Of a lognormal 1.5 times as long the median is: 18 days, given that it goes on.
    expect(findPassedBy(way(plan).stages[0]!, 0.5)).toBe(12)
    expect(findPassedBy(way(longer(plan)).stages[0]!, 0.5)).toBe(18)
  })

  test('move what is expected of the classes, and the options with it', () => {
    const shortIn = ({ demands }: Forecast) =>
      [...demands.values()].reduce(
        (sum, one) => sum + poolForecast(one).expectedShortByDay.reduce((a, b) => a + b, 0),
        0,
      )
    expect(shortIn(after)).toBeGreaterThan(shortIn(before))
    const path = planned.itineraries[0]!.stages.map(one => one.estimate)
    const walkIn = (made: Forecast, stages: readonly StageEstimate[]) => outlookOf(made).walk(stages, TODAY)
    const days = (walk: ReturnType<typeof walkIn>) => walk[0]!.present.reduce((sum, there) => sum + there, 0)
    expect(days(walkIn(after, path.map(longer)))).toBeGreaterThan(1.2 * days(walkIn(before, path)))
  })

  test('a change to one animal is what a rebuild gives, and so is what was kept', () => {
    const [first] = slower.itineraries
    const way = { ...first!, stages: first!.stages.map(one => ({ ...one, estimate: estimate() })) }
    const rebuilt = (itineraries: ForecastInput['itineraries']) => forecast({ ...slower, itineraries })
    const changed = rebuilt(slower.itineraries.map(one => (one === first ? way : one)))
    expectSame(withWay(after, way), changed, 1e-10)
    const memory = newForecastMemory()
    forecast(slower, newWork(), memory)
    const kept = forecast(changed.input, newWork(), memory)
    for (const [id, demand] of changed.demands)
      expect(kept.demands.get(id)!.classes.map(one => one.wanted)).toEqual(
        demand.classes.map(one => one.wanted),
      )
  })
})

test('the walk of options: chances to reach the next stage are those of the learned law', () => {
  const learned = hazardsOf(
    stageLaw(estimate({ shares: { onward: 0.3, died: 0.7, euthanased: 0, left: 0 } }), 0, LEARNED_DAYS),
  )
  const outlook = outlookOf(forecast(input({ horizonDays: 60, pools: [pool('cage', [1], 60)] })))
  const walk = outlook.walk([estimate({ learned }), estimate()], TODAY + 1)
  expect(walk[1]!.reachProbability).toBeCloseTo(0.3, 12)
  expect(walk[2]!.reachProbability).toBeCloseTo(0.24, 12)
  const gated = {
    ...OVERWINTERING,
    learned: learnedOf({ died: Array(400).fill(0.01), passes: Array(400).fill(0.5) }),
  }
  const opens = gateDelayOf(gated, TODAY)
  const [, after] = outlook.walk([gated, estimate()], TODAY + 1)
  // Entered tomorrow, shut until one day less: 0.99 a day, then each day 0.99 x 0.5 more go.
  const shut = 0.99 ** (opens - 1)
  expect(after!.reachProbability).toBeCloseTo((shut * 0.99 * 0.5) / (1 - 0.99 * 0.5), 12)
})
