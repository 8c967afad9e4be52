/**
 * What is known of how a stage ends, counted in animals: by a plan, by records, or by both added up.
 * Promise: evidence of plan and records has one form, so learning is adding. What no gate bars (died, euthanased, left)
 * is counted by days since entry; going on by days since the animal's gate could be passed, which is the same day
 * where there is no date gate. Numbers are at least 0 and need not be whole.
 */
import { type Exit, newByExit, UNBARRED } from '#lib/domain/housing.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import { lengthTails, type StageLaw, sharesOf, stageLaw } from '#lib/forecast/stage-law.ts'

/**
 * Six arrays of `days` numbers. On day d since entry: `died`, `euthanased`, `left` ended so, `kept` did not.
 * On day k since the gate could be passed: `onward` went on, `stayed` could have and did not.
 */
export type Evidence = {
  readonly days: number
  readonly died: Float64Array
  readonly euthanased: Float64Array
  readonly left: Float64Array
  readonly kept: Float64Array
  readonly onward: Float64Array
  readonly stayed: Float64Array
}

/** Evidence about a stage as a whole: `beyond` shares among the exits, summing to 1, what has not ended by `days`. */
export type StageEvidence = Evidence & { readonly beyond: Readonly<Record<Exit, number>> }

const FIELDS = ['died', 'euthanased', 'left', 'kept', 'onward', 'stayed'] as const

/** Evidence of nothing over this many days. */
export function noEvidence(days: number): Evidence {
  const zeros = () => new Float64Array(days)
  return {
    days,
    died: zeros(),
    euthanased: zeros(),
    left: zeros(),
    kept: zeros(),
    onward: zeros(),
    stayed: zeros(),
  }
}

/**
 * A law of a stage without a date gate as evidence of one animal: its sub-masses, and its survival as what stayed.
 * Masses below 0 by rounding count as 0.
 */
export function evidenceOfLaw(law: StageLaw): StageEvidence {
  const { days, staying } = law
  const made = noEvidence(days)
  for (let d = 0; d < days; d++) {
    for (const exit of UNBARRED) made[exit][d] = Math.max(0, law.masses[exit][d]!)
    made.onward[d] = Math.max(0, law.masses.onward[d]!)
    made.stayed[d] = staying[d]!
    made.kept[d] = made.onward[d]! + staying[d]!
  }
  const later = staying[days - 1]!
  return {
    ...made,
    beyond: newByExit(exit => (later > 0 ? law.tails[exit] / later : exit === 'onward' ? 1 : 0)),
  }
}

/**
 * A plan's stage as evidence of one animal over `days` days, without its booked check: that one bars the animal whose
 * check it is. At a date gate those whom the plan has leave by themselves at the gate are counted as going on; up to
 * the gate's day this is the plan exactly, after it deaths go on by the plan's hazard.
 * Throws RangeError as stageLaw does.
 */
export function evidenceOfPlan(estimate: StageEstimate, days: number): StageEvidence {
  const { ready } = estimate
  if (ready.kind === 'length') return evidenceOfLaw(stageLaw({ ...estimate, leastDays: 0 }, 0, days))
  const shares = sharesOf(estimate)
  const passes = shares.onward + shares.left
  const made = noEvidence(days)
  const lag = lengthTails(ready.lag, days)
  const tails = { died: lengthTails(estimate.died, days), euthanased: lengthTails(estimate.euthanased, days) }
  for (let d = 0; d < days; d++) {
    let kept = passes
    for (const exit of ['died', 'euthanased'] as const) {
      made[exit][d] = Math.max(0, shares[exit] * ((d === 0 ? 1 : tails[exit][d - 1]!) - tails[exit][d]!))
      kept += shares[exit] * tails[exit][d]!
    }
    made.kept[d] = kept
    made.onward[d] = Math.max(0, passes * ((d === 0 ? 1 : lag[d - 1]!) - lag[d]!))
    made.stayed[d] = passes * lag[d]!
  }
  return { ...made, beyond: newByExit(exit => (exit === 'onward' ? 1 : 0)) }
}

/** What evidence says of the first days. */
export function firstDays(evidence: Evidence, days: number): Evidence {
  const part = (field: (typeof FIELDS)[number]) => evidence[field].subarray(0, days)
  return {
    days,
    died: part('died'),
    euthanased: part('euthanased'),
    left: part('left'),
    kept: part('kept'),
    onward: part('onward'),
    stayed: part('stayed'),
  }
}

/** The sum of pieces of evidence, each times its weight (at least 0). All have the same `days`. */
export function addEvidence(
  pieces: readonly { readonly weight: number; readonly of: Evidence }[],
  days: number,
): Evidence {
  const sum = noEvidence(days)
  for (const { weight, of } of pieces) {
    if (of.days !== days) throw new RangeError(`evidence needs ${days} days, got ${of.days}`)
    for (const field of FIELDS) {
      const into = sum[field]
      const from = of[field]
      for (let d = 0; d < days; d++) into[d] = into[d]! + weight * from[d]!
    }
  }
  return sum
}
