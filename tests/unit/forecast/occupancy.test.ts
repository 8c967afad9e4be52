import fc from 'fast-check'
import { expect, test } from 'vitest'
import { EXITS } from '#lib/domain/housing.ts'
import { findEnteredBy, findPassedBy, goneByDay, occupancyOf } from '#lib/forecast/occupancy.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { estimate, itinerary, OVERWINTERING, stage, TODAY } from '../../support/forecasting.ts'

const CLOCK = { today: TODAY, horizonDays: 200, shareOfTodayLeft: 0.4 }
const PATH = [stage('cage'), stage('aviary'), { ...stage('pen'), estimate: OVERWINTERING }, stage(null)]

test('on every day the chances of all stages and endings sum to 1 within 1e-11', () => {
  const some = fc.record({
    firstStage: fc.nat(3),
    age: fc.integer({ min: -20, max: 90 }),
    unseenDays: fc.nat(6),
    isReady: fc.boolean(),
  })
  fc.assert(
    fc.property(some, ({ age, ...change }) => {
      const way = occupancyOf(itinerary('a', PATH, { ...change, enteredStageOn: TODAY - age }), CLOCK)
      const gone = EXITS.map(exit => goneByDay(way, exit))
      const start = change.isReady ? 0 : Math.max(0, -age)
      for (let d = start; d < 200; d++) {
        const there = way.stages.map(({ presentByDay }) => presentByDay[d]!)
        // Ready in its last stage it is counted tonight and released tomorrow.
        expect(Math.abs(neumaierSum([...there, ...gone.map(byDay => byDay[d]!)]) - 1)).toBeLessThan(1e-11)
      }
    }),
    { numRuns: 60 },
  )
})

test('reach: what enters a stage by any day never exceeds the chance that it is ever entered', () => {
  const way = occupancyOf(itinerary('a', PATH), { ...CLOCK, horizonDays: 900 })
  const [, aviary] = way.stages
  expect(neumaierSum(aviary!.entersByDay)).toBeCloseTo(aviary!.reachProbability, 6)
  expect(aviary!.onwardProbability).toBeCloseTo(0.8 * aviary!.reachProbability, 15)
})

test('the likely days of a stage: quantiles given that it is passed, in order, beyond the horizon unknown', () => {
  const way = occupancyOf(itinerary('a', PATH), CLOCK)
  const [cage, aviary, pen] = way.stages
  const days = [0.1, 0.25, 0.5, 0.75, 0.9].map(level => findPassedBy(cage!, level)!)
  expect(days).toEqual(days.toSorted((a, b) => a - b))
  expect(findEnteredBy(cage!, 0.5)).toBe(0)
  expect(findEnteredBy(aviary!, 0.5)).toBe(findPassedBy(cage!, 0.5))
  // The gate opens on 20 March, 115 days from now: some have passed it within the horizon, nine in ten have not.
  expect(findPassedBy(pen!, 0.1)).toBeGreaterThan(115)
  expect(
    findPassedBy(occupancyOf(itinerary('a', PATH), { ...CLOCK, horizonDays: 120 }).stages[2]!, 0.9),
  ).toBeUndefined()
})

test('given that it is passed, half of those at the start of a stage have passed it by its median', () => {
  const way = occupancyOf(itinerary('a', [stage('cage')], { enteredStageOn: TODAY }), {
    ...CLOCK,
    shareOfTodayLeft: 1,
  })
  const median = estimate().ready.kind === 'length' ? 12 : 0
  expect(Math.abs(findPassedBy(way.stages[0]!, 0.5)! - median)).toBeLessThanOrEqual(1)
})
