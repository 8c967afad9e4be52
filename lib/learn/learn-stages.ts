/**
 * All stages of a network learned together: each from its plan, its own records, and what its kind is out by elsewhere.
 * Promise: pure; the same cells, day and weight give the same answer, whatever their order. A cell without records of its
 * own still learns from its kind.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import { type Evidence, evidenceOfPlan, type StageEvidence } from './evidence.ts'
import { fitnessOf } from './fitness.ts'
import { firstGrid, gridLikelihood } from './plan-grid.ts'
import { pooledPriors } from './pooling.ts'
import { leanOnPrior, PLAN_WEIGHT, posteriorOf } from './posterior.ts'
import { type Centred, centreOf } from './prior-grid.ts'
import { daysOfStay, type RecordedStay } from './stay.ts'
import { consistentTrials } from './vague-dates.ts'

/** One condition x species group x severity x stage (x season of admission): its plan's stage and its stays. */
export type StageRecords = {
  readonly key: string
  readonly stage: string
  readonly condition: string
  readonly estimate: StageEstimate
  readonly stays: readonly RecordedStay[]
  /** How many days of the stage are told apart; longer ones count up to there. */
  readonly days: number
}

/**
 * What was learned of a cell. `posterior`: parameters in animals, of which meanLaw makes the law the forecast takes.
 * For the sentence a person reads: `centred.stretch` times the plan, from `animals` stays that had a day to count, the chances of its days
 * leaning by `lean` (in [0, 1]) on the plan so centred.
 */
export type LearnedStage = {
  readonly key: string
  readonly animals: number
  readonly centred: Centred
  readonly records: Evidence
  readonly posterior: StageEvidence
  readonly lean: number
}

/**
 * Learns all cells, by the days on which animals were fit (fitnessOf), from what was known on the morning of `asOf`. One
 * after the other, in their order, so that whoever keeps little of each needs little memory. First each is read by itself,
 * which gives null: what they teach each other comes of all, and whoever asks may do other things in between.
 * Throws RangeError where keys repeat, a stay's days are out of order, or a plan's shares or lengths are none.
 */
export function* learnEach(
  cells: readonly StageRecords[],
  asOf: DayNumber,
  weight = PLAN_WEIGHT,
): Generator<LearnedStage | null, void> {
  const known = []
  for (const cell of cells) {
    const stays = cell.stays.map(stay => fitnessOf(stay, asOf))
    const byPlan = consistentTrials(stays, asOf, evidenceOfPlan(cell.estimate, cell.days), weight)
    const logLikelihood = gridLikelihood(firstGrid(cell.estimate, cell.days), byPlan)
    known.push({ ...cell, stays, byPlan, logLikelihood })
    yield null
  }
  const priors = pooledPriors(known)
  for (const { key, estimate, stays, byPlan } of known) {
    const centred = centreOf(estimate, byPlan, weight, priors.get(key))
    const records = consistentTrials(stays, asOf, centred.centre, weight)
    yield {
      key,
      animals: stays.filter(stay => isWatched(stay, asOf)).length,
      centred,
      records,
      posterior: posteriorOf(centred.centre, weight, records),
      lean: leanOnPrior(centred.centre, weight, records),
    }
  }
}

/** All that learnEach learns. */
export function learnStages(
  cells: readonly StageRecords[],
  asOf: DayNumber,
  weight = PLAN_WEIGHT,
): LearnedStage[] {
  return [...learnEach(cells, asOf, weight)].filter(learned => learned !== null)
}

function isWatched(stay: RecordedStay, asOf: DayNumber): boolean {
  const { from, until } = daysOfStay(stay, asOf)
  return until >= from
}
