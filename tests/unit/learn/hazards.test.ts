import { expect, test } from 'vitest'
import { EXITS, newByExit } from '#lib/domain/housing.ts'
import { lawOfHazards } from '#lib/forecast/hazards.ts'
import { evidenceOfPlan, noEvidence } from '#lib/learn/evidence.ts'
import { meanHazards, meanLaw, meanStay } from '#lib/learn/hazards.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { estimate, length } from '../../support/forecasting.ts'

test('masses and tails sum to 1, with a gate and without', () => {
  const known = evidenceOfPlan(estimate(), 90)
  for (const opens of [0, 1, 30, 200]) {
    const law = meanLaw(known, opens)
    const all = EXITS.map(exit => neumaierSum(law.masses[exit]) + law.tails[exit])
    expect(neumaierSum(all)).toBeCloseTo(1, 12)
    for (let d = 0; d < Math.min(opens, 90); d++) expect(law.masses.onward[d]).toBe(0)
  }
})

test('a day that nothing is known of ends the stage by going on', () => {
  const law = lawOfHazards(
    meanHazards(noEvidence(3)),
    newByExit(() => 0.25),
  )
  expect(law.masses.onward[0]).toBe(1)
  expect(Array.from(law.staying)).toEqual([0, 0, 0])
})

// The mean of midnights passed is the engine's own figure for this length (tests/golden/lengths.py's integral, summed).
test('the mean stay of median 21 and 90th percentile 35 is 22.736 midnights', () => {
  const shares = { onward: 1, died: 0, euthanased: 0, left: 0 }
  const plan = estimate({ shares, ready: { kind: 'length', length: length(21, 35) } })
  expect(meanStay(meanLaw(evidenceOfPlan(plan, 600)))).toBeCloseTo(22.73630894190746, 9)
})
