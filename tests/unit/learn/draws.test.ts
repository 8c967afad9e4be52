import { describe, expect, test } from 'vitest'
import { lawOfHazards } from '#lib/forecast/hazards.ts'
import { drawCentred, drawHazards } from '#lib/learn/draws.ts'
import { evidenceOfPlan } from '#lib/learn/evidence.ts'
import { meanHazards, meanLaw, meanStay } from '#lib/learn/hazards.ts'
import { posteriorOf } from '#lib/learn/posterior.ts'
import { centreOf } from '#lib/learn/prior-grid.ts'
import { trialsOf } from '#lib/learn/trials.ts'
import { estimate, TODAY } from '../../support/forecasting.ts'
import { judgedAlone } from '../../support/judged-stages.ts'
import { ended } from '../../support/learning.ts'
import { drawStays, planOf, type StageTruth } from '../../support/stage-truth.ts'

const FIELDS = ['died', 'euthanased', 'left', 'passes'] as const
const STAYS = [
  ended('died', 1),
  ended('onward', 6),
  ended('onward', 8),
  ended('onward', 11),
  ended('left', 4),
]

test('draws have the mean and the variance of their Dirichlet, day by day', () => {
  const known = posteriorOf(evidenceOfPlan(estimate(), 15), 20, trialsOf(STAYS, TODAY, 15))
  const mean = meanHazards(known)
  const DRAWS = 1500
  const draws = Array.from({ length: DRAWS }, (_, draw) => drawHazards(known, 'law', draw))
  for (let d = 0; d < 15; d++) {
    const total = known.died[d]! + known.euthanased[d]! + known.left[d]! + known.kept[d]!
    const able = known.onward[d]! + known.stayed[d]!
    for (const field of FIELDS) {
      const m = mean[field][d]!
      const variance = (m * (1 - m)) / ((field === 'passes' ? able : total) + 1)
      const seen = draws.map(draw => draw[field][d]!)
      const average = seen.reduce((a, b) => a + b) / DRAWS
      expect(Math.abs(average - m), `${field} ${d}`).toBeLessThan(4.5 * Math.sqrt(variance / DRAWS))
      const spread = seen.reduce((sum, one) => sum + (one - m) ** 2, 0) / DRAWS
      // Rare chances are drawn from very skewed betas, whose variances are seen badly.
      if (m > 0.03) expect(Math.abs(spread / variance - 1), `${field} ${d}`).toBeLessThan(0.35)
    }
  }
})

test('far beyond the plan and all records, draws are still chances', () => {
  const plan = estimate({ ready: { kind: 'length', length: { medianDays: 1, p90Days: 1.5 } } })
  const hazards = drawHazards(evidenceOfPlan(plan, 700), 'law', 1)
  for (const field of FIELDS) {
    for (const chance of hazards[field]) expect(chance >= 0 && chance <= 1).toBe(true)
  }
})

describe('a new record', () => {
  const known = (stays: typeof STAYS) =>
    posteriorOf(evidenceOfPlan(estimate(), 40), 20, trialsOf(stays, TODAY, 40))

  test('leaves the days it does not speak of exactly as they were drawn', () => {
    const before = drawHazards(known(STAYS), 'law', 3)
    const after = drawHazards(known([...STAYS, ended('died', 9)]), 'law', 3)
    for (const field of FIELDS) {
      expect(Array.from(after[field].slice(10))).toEqual(Array.from(before[field].slice(10)))
    }
    expect(after.passes[8]).not.toBe(before.passes[8])
  })

  test('moves the mean stay of each draw by little beside what draws differ by', () => {
    const means = (stays: typeof STAYS) =>
      Array.from({ length: 40 }, (_, draw) =>
        meanStay(lawOfHazards(drawHazards(known(stays), 'law', draw), known(stays).beyond)),
      )
    const [before, after] = [means(STAYS), means([...STAYS, ended('onward', 12)])]
    const spread = Math.max(...before) - Math.min(...before)
    const moves = before.map((one, i) => Math.abs(after[i]! - one)).sort((a, b) => a - b)
    expect(moves[30]).toBeLessThan(spread / 10)
  })
})

test('another law or draw is another way it may be, and the same one is the same', () => {
  const known = evidenceOfPlan(estimate(), 30)
  expect(drawHazards(known, 'law', 1)).toEqual(drawHazards(known, 'law', 1))
  expect(drawHazards(known, 'law', 1).passes).not.toEqual(drawHazards(known, 'law', 2).passes)
  expect(drawHazards(known, 'law', 1).passes).not.toEqual(drawHazards(known, 'other', 1).passes)
})

// Truths are drawn from the grid's own prior, records from them, by a generator that shares nothing with the engine.
test.each([3, 30])('nine chances in ten hold the true mean stay about that often, from %i animals', n => {
  const { value, standardError } = judgedAlone(n, 24, 40).coverage
  expect(Math.abs(value - 0.9), `${value}`).toBeLessThan(2.5 * standardError + 0.02)
})

test('the mean of centred draws is near the mean law', () => {
  const truth: StageTruth = { early: 0.15, death: [3, 0.9], ready: [10, 0.5] }
  const records = trialsOf(drawStays(truth, 30, 4), TODAY, 110)
  const centred = centreOf(planOf(truth), records, 20)
  const exact = meanStay(meanLaw(posteriorOf(centred.centre, 20, records)))
  const drawn = Array.from({ length: 200 }, (_, draw) =>
    meanStay(lawOfHazards(drawCentred(centred, 20, records, 'law', draw), centred.centre.beyond)),
  )
  expect(Math.abs(drawn.reduce((a, b) => a + b) / 200 / exact - 1)).toBeLessThan(0.04)
})
