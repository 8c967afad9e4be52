/**
 * How a stage ends, by a plan and by records together.
 * Promise: the posterior of section 1 of the engine: prior sub-masses times a weight in animals, plus trials. Weight
 * towards 0 is Kaplan-Meier and Aalen-Johansen; no record is the prior. (Walker and Muliere 1997 for the beta-Stacy
 * process; Susarla and Van Ryzin 1976 for the constant weight.)
 */
import { addEvidence, type Evidence, type StageEvidence } from './evidence.ts'

/** What a plan weighs, in animals, once its centre is learned (engine, section 1). */
export const PLAN_WEIGHT = 20

/**
 * Parameters of the posterior: the prior's evidence of one animal times `weight`, plus the records' trials. What is
 * left at the horizon goes as in the prior. Throws RangeError for a negative weight or unlike numbers of days.
 */
export function posteriorOf(prior: StageEvidence, weight: number, records: Evidence): StageEvidence {
  if (!(weight >= 0 && Number.isFinite(weight)))
    throw new RangeError(`weight needs at least 0 animals, got ${weight}`)
  const pieces = [
    { weight, of: prior },
    { weight: 1, of: records },
  ]
  return { ...addEvidence(pieces, prior.days), beyond: prior.beyond }
}

/**
 * How far the chances of a stage's days lean on the prior rather than on records, in [0, 1]: the prior's share of the
 * evidence of each day (c G / (c G + r)), averaged over the days that an animal of the prior lives through. 1 without
 * records; c/(c + n) where n such animals were followed to their end.
 */
export function leanOnPrior(prior: StageEvidence, weight: number, records: Evidence): number {
  const trials = (evidence: Evidence, d: number) =>
    evidence.died[d]! + evidence.euthanased[d]! + evidence.left[d]! + evidence.kept[d]!
  let lean = 0
  let lived = 0
  for (let d = 0; d < prior.days; d++) {
    const of = trials(prior, d)
    lean += (of * of * weight) / (of * weight + trials(records, d) || 1)
    lived += of
  }
  return lived > 0 ? lean / lived : 1
}
