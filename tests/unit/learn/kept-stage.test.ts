import { expect, test } from 'vitest'
import type { StageCell } from '#lib/learn/cells.ts'
import { curveOf } from '#lib/learn/curve.ts'
import { meanHazards } from '#lib/learn/hazards.ts'
import { keptStage } from '#lib/learn/kept-stage.ts'
import { learnStages } from '#lib/learn/learn-stages.ts'
import { OVERWINTERING, TODAY } from '../../support/forecasting.ts'
import { ended } from '../../support/learning.ts'

const CELL: StageCell = {
  key: 'p|1|autumn',
  planIds: ['p'],
  stageNo: 1,
  condition: 'light',
  season: 'autumn',
  estimate: OVERWINTERING,
}
const stays = [ended('died', 4), ended('onward', 180, { gate: { opens: TODAY - 5000 + 150 } })]
const records = {
  key: CELL.key,
  condition: 'light',
  stage: 'overwintering',
  estimate: OVERWINTERING,
  stays,
  days: 256,
}

test('what is kept of a stage is what was learned of it, and its curve waits from the middle of its season', () => {
  const learned = learnStages([records], TODAY)[0]!
  const kept = keptStage(CELL, learned, TODAY, 20, 3)
  expect(kept).toMatchObject({ ...CELL, animals: 2, stretch: learned.centred.stretch, lean: learned.lean })
  expect(kept.hazards).toEqual({ ...meanHazards(learned.posterior), beyond: learned.posterior.beyond })
  // From 15 October to 20 March.
  expect(kept.curve.opens).toBe(156)
  const curve = curveOf(OVERWINTERING, learned, { opens: 156, weight: 20, seed: 3 })
  expect(kept.curve).toEqual({ opens: 156, ...curve })
  expect(keptStage(CELL, learned, TODAY, 20, 4).curve.low).not.toEqual(curve.low)
})

test('a stage without records leans on its plan wholly, and no further', () => {
  const learned = learnStages([{ ...records, stays: [] }], TODAY)[0]!
  expect(keptStage(CELL, { ...learned, lean: 1 + 1e-15 }, TODAY, 20, 1)).toMatchObject({
    animals: 0,
    lean: 1,
  })
})
