/**
 * What a run keeps of a stage that was learned: its numbers for a sentence, its chances by day, its curve.
 * Promise: pure; all of it is of the one evidence.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { type StageCell, usualWait } from './cells.ts'
import { curveOf } from './curve.ts'
import { meanHazards } from './hazards.ts'
import type { LearnedStage } from './learn-stages.ts'

/** Its mean chances by day, as forecasts read them. */
export function keptHazards({ posterior }: Pick<LearnedStage, 'posterior'>) {
  return { ...meanHazards(posterior), beyond: posterior.beyond }
}

/** `weight` and `seed`: those that it was learned and that its band is drawn with. The curve waits as cells.ts has it. */
export function keptStage(
  { key, planIds, stageNo, condition, season, estimate }: StageCell,
  learned: LearnedStage,
  asOf: DayNumber,
  weight: number,
  seed: number,
) {
  const opens = usualWait({ season, estimate }, asOf)
  const { animals, centred, lean } = learned
  return {
    key,
    planIds,
    stageNo,
    condition,
    season,
    estimate,
    animals,
    stretch: centred.stretch,
    earlyOdds: centred.early,
    // A sum of shares may pass 1 in its last digit.
    lean: Math.min(1, lean),
    hazards: keptHazards(learned),
    curve: { opens, ...curveOf(estimate, learned, { opens, weight, seed }) },
  }
}
