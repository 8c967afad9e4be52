/**
 * The chances of a stage day by day that evidence makes, as means, and the law they make.
 * Promise: on every day died + euthanased + left <= 1 and 0 <= passes <= 1, so a law's masses and tails sum to 1.
 */
import { UNBARRED } from '#lib/domain/housing.ts'
import type { Hazards } from '#lib/forecast/hazards.ts'
import { lawOfHazards } from '#lib/forecast/hazards.ts'
import type { StageLaw } from '#lib/forecast/stage-law.ts'
import type { Evidence, StageEvidence } from './evidence.ts'

/**
 * The mean hazards of evidence. With (x_died, x_euthanased, x_left, kept) the parameters of a Dirichlet and
 * (onward, stayed) those of a beta, independent over days: x/(sum) and onward/(onward + stayed). Where all could always
 * pass, kept = onward + stayed and the chance to go on is onward/(sum), the one Dirichlet of the engine's section 1.
 * A day that neither plan nor records reach ends the stage by going on.
 */
export function meanHazards(evidence: Evidence): Hazards {
  const { days } = evidence
  const made = {
    died: new Float64Array(days),
    euthanased: new Float64Array(days),
    left: new Float64Array(days),
  }
  const passes = new Float64Array(days)
  for (let d = 0; d < days; d++) {
    const total = evidence.died[d]! + evidence.euthanased[d]! + evidence.left[d]! + evidence.kept[d]!
    if (total > 0) for (const exit of UNBARRED) made[exit][d] = evidence[exit][d]! / total
    const able = evidence.onward[d]! + evidence.stayed[d]!
    passes[d] = able > 0 ? evidence.onward[d]! / able : 1
  }
  return { days, ...made, passes }
}

/** The mean law of evidence; arguments as lawOfHazards. */
export function meanLaw(evidence: StageEvidence, opens = 0): StageLaw {
  return lawOfHazards(meanHazards(evidence), evidence.beyond, opens)
}

/**
 * The mean number of midnights that a law's stays pass, counted up to its horizon: the sum of S(d). In days; what
 * lies beyond the horizon is left out.
 */
export function meanStay({ staying }: StageLaw): number {
  return staying.reduce((sum, still) => sum + still, 0)
}
