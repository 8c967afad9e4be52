import { expect, it } from 'vitest'
import { learnMix } from '#lib/learn/arrival-mix.ts'
import { learnStages } from '#lib/learn/learn-stages.ts'
import { PLAN_WEIGHT } from '#lib/learn/posterior.ts'
import { addStageDraws, drawnTrade, newStageDraws } from '#lib/learn/shared-draws.ts'
import { SHARED_DRAWS } from '#lib/learn/shared-variance.ts'
import { TODAY } from '#tests/support/forecasting.ts'
import { referenceTrade } from '#tests/support/reference.ts'
import { drawStays, planOf, type StageTruth } from '#tests/support/stage-truth.ts'

const TRUTH: StageTruth = { early: 0.15, death: [3, 0.9], ready: [12, 0.5] }
const [stage] = learnStages(
  [
    {
      key: 'a|1',
      stage: 'restricted activity',
      condition: 'fracture',
      estimate: planOf(TRUTH, 1),
      stays: drawStays(TRUTH, 40, 3),
      days: 128,
    },
  ],
  TODAY,
)
const meanStay = (passes: Float64Array) => {
  let [alive, sum] = [1, 0]
  for (const chance of passes) {
    alive *= 1 - chance
    sum += alive
  }
  return sum
}

it('each draw has one way a stage may be, the same each time', () => {
  const [draws, again] = [newStageDraws(), newStageDraws()]
  for (const of of [draws, again]) addStageDraws(of, stage!, PLAN_WEIGHT)
  expect(draws).toHaveLength(SHARED_DRAWS)
  expect(draws.map(of => of.get('a|1'))).toEqual(again.map(of => of.get('a|1')))
  const stays = draws.map(of => meanStay(of.get('a|1')!.passes))
  expect(new Set(stays).size).toBe(SHARED_DRAWS)
  expect(Math.max(...stays) / Math.min(...stays)).toBeLessThan(2)
})

it('knowledge of a draw has its stages and arrivals, and no doubt of its own', () => {
  const draws = newStageDraws()
  addStageDraws(draws, stage!, PLAN_WEIGHT)
  const trade = {
    ...referenceTrade(),
    doubts: [{ poolId: 'x', size: 1, from: 0, varianceByDay: Float64Array.of(1) }],
  }
  const both = [1, 2].map(centreId => ({ centreId, share: 0.5 }))
  const learned = {
    group: 'owls',
    from: TODAY,
    events: 9,
    refused: 0,
    level: { mean: 1, low: 0.7, high: 1.4 },
    weekend: 1,
    theta: 5,
    season: { mean: 1, shape: 25, until: TODAY + 40, variance: 0.04 },
    eventsPerDay: new Float64Array(50).fill(2),
    sizes: { young: [1], grown: [1] },
    spread: Array.from({ length: 50 }, () => Float64Array.of(0.2)),
    shares: { winter: both, spring: both, summer: both, autumn: both },
    sharesWeight: { winter: 20, spring: 20, summer: 20, autumn: 20 },
    mix: learnMix([]),
    mixWeight: { winter: 5, spring: 5, summer: 5, autumn: 5 },
  }
  const [one, other] = [3, 4].map(draw => drawnTrade(trade, draws, [learned], draw))
  expect(one!.learned).toBe(draws[3])
  expect(one!.doubts).toEqual([])
  expect(one!.arrivals.get('owls')!.eventsPerDay[0]).not.toBe(other!.arrivals.get('owls')!.eventsPerDay[0])
  expect(one!.arrivals.get('owls')!.shares).not.toEqual(other!.arrivals.get('owls')!.shares)
  expect(one!.species).toBe(trade.species)
})
