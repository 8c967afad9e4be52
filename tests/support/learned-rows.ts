/** A published learning for tests: stages that take so many times as long as their plans say. */
import type { LearnedStageRow, LearningRun } from '#lib/db/learned.ts'
import type { CombinedPlan } from '#lib/domain/care-plan-combination.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import type { StageEstimate } from '#lib/domain/estimate.ts'
import type { ResidentState } from '#lib/domain/network-state.ts'
import { cellKey } from '#lib/domain/stage-cell.ts'
import { learnedAsPlanned } from './learned.ts'

const LEARNED_DAYS = 512

export function learningRun(now: Date): LearningRun {
  return {
    modelVersion: 'test',
    asOf: dayOfInstant(now, 'UTC'),
    learnedAt: now,
    revision: 1,
    knowledgeRevision: 1,
    planWeight: 20,
    seed: 1,
    animals: 1,
    inputsDigest: '0'.repeat(64),
    digest: '1'.repeat(64),
  }
}

/** A row for each stage without a date that animals in care and those of a plan will go through, each once. */
export function learnedRows(
  residents: readonly ResidentState[],
  { planIds, stages }: CombinedPlan,
  times: number,
): LearnedStageRow[] {
  const found = [
    ...stages.flatMap(({ estimate }, at) => learnedRow(planIds, at + 1, estimate, times)),
    ...residents.flatMap(one =>
      one.stages.flatMap(({ no, estimate }) => learnedRow(one.planIds, no, estimate, times)),
    ),
  ]
  return [...new Map(found.map(row => [row.key, row])).values()]
}

/** The stage as records would have it that take so many times the plan; none for one that ends by a date. */
function learnedRow(
  planIds: readonly string[],
  stageNo: number,
  estimate: StageEstimate,
  times: number,
): LearnedStageRow[] {
  if (estimate.ready.kind !== 'length') return []
  const { medianDays, p90Days } = estimate.ready.length
  const { leastDays: _booked, ...plan } = estimate
  const length = { medianDays: times * medianDays, p90Days: times * p90Days }
  const { learned } = learnedAsPlanned({ ...plan, ready: { kind: 'length', length } }, LEARNED_DAYS)
  if (learned === undefined) return []
  const day = Float64Array.of(1)
  return [
    {
      key: cellKey(planIds, stageNo, null),
      planIds,
      stageNo,
      condition: 'x',
      season: null,
      estimate: plan,
      animals: 9,
      stretch: { mean: times, low: times, high: times },
      earlyOdds: 1,
      lean: 0.2,
      hazards: learned,
      curve: { opens: 0, plan: day, learned: day, low: day, high: day, atRisk: day },
    },
  ]
}
