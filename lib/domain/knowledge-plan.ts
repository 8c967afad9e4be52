/**
 * Care plans out of the records: rows of numbers become stages with estimates and gates.
 * Promise: nothing is added but the default death times where a plan says none (trade S26); every mark stays.
 */
import { type CarePlan, carePlan, type PlanGroup, planGroup } from './care-plan.ts'
import { DIED_BY_DEFAULT, type LengthEstimate, type Readiness } from './estimate.ts'
import type { PlanGroupKnowledge, PlanKnowledge, PlanStageKnowledge } from './knowledge.ts'

/** A care plan as the domain reads it; throws ZodError when the records hold what the domain refuses. */
export function carePlanOf(plan: PlanKnowledge): CarePlan {
  return carePlan.parse({
    id: plan.id,
    condition: plan.condition_slug,
    planGroup: plan.plan_group_slug,
    severity: plan.severity,
    treatment: plan.treatment,
    stages: plan.stages.map(stageOf),
    gates: plan.gates.map(gate => ({
      stage: gate.stage,
      check: gate.check_slug,
      what: gate.what,
      offsetDays: gate.offset_days,
      intervalDays: gate.interval_days,
      anchor: gate.anchor,
      requiredFor: gate.required_for,
      who: gate.who,
      mark: gate.mark,
      note: gate.note,
    })),
  })
}

/** A plan group as the domain reads it. */
export function planGroupOf(group: PlanGroupKnowledge): PlanGroup {
  return planGroup.parse(group)
}

function stageOf(row: PlanStageKnowledge): CarePlan['stages'][number] {
  return {
    stage: row.stage,
    housing: row.housing_type,
    sizeNote: row.min_size_note,
    estimate: {
      stage: row.stage,
      ready: readinessOf(row),
      shares: { onward: row.goes_on, died: row.died, euthanased: row.euthanased, left: row.left_care },
      died: lengthOr(row.died_median_days, row.died_p90_days, DIED_BY_DEFAULT),
      euthanased: lengthOr(row.euthanased_median_days, row.euthanased_p90_days, DIED_BY_DEFAULT),
    },
    stateGate: row.gate_opens === null ? row.calendar_gate : null,
    carerMinutesPerDay: row.carer_minutes_day,
    marks: {
      size: row.mark_size,
      lengths: row.mark_durations,
      exitTimes: row.mark_exit_times,
      shares: row.mark_shares,
      minutes: row.mark_minutes,
    },
    note: row.note,
  }
}

function readinessOf(row: PlanStageKnowledge): Readiness {
  if (row.gate_opens === null) {
    return {
      kind: 'length',
      length: { medianDays: row.ready_median_days ?? 0, p90Days: row.ready_p90_days ?? 0 },
    }
  }
  return {
    kind: 'date gate',
    opens: row.gate_opens,
    closes: row.gate_closes,
    minDays: row.gate_min_days ?? 0,
    lag: { medianDays: row.gate_lag_median_days ?? 0, p90Days: row.gate_lag_p90_days ?? 0 },
  }
}

function lengthOr(
  medianDays: number | null,
  p90Days: number | null,
  otherwise: LengthEstimate,
): LengthEstimate {
  return medianDays === null || p90Days === null ? otherwise : { medianDays, p90Days }
}
