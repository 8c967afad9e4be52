/**
 * From the gates of a plan to dated checks of one animal.
 * Promise: every gate of the stage becomes one check with its due day, or none where it is due "when ready"; nobody
 * goes on before the first day of a check that bars the way. Days are DayNumber, offsets whole days.
 */
import type { PlanGate } from './care-plan.ts'
import type { DayNumber } from './day.ts'
import type { CareStage } from './housing.ts'

export type CheckPlanned = {
  readonly stage: CareStage
  readonly check: string
  readonly what: string
  /** Null: due when the animal is ready. */
  readonly dueOn: DayNumber | null
  /** The first day of the stage, where the due day is counted from it and moves with it. */
  readonly countedFrom: DayNumber | null
  readonly anchor: PlanGate['anchor']
  readonly intervalDays: number | null
  readonly requiredFor: PlanGate['requiredFor']
  readonly who: PlanGate['who']
  readonly mark: string
}

export type StageDays = {
  readonly admittedOn: DayNumber
  readonly stageBeganOn: DayNumber
  /** Null until somebody has operated: what is counted from surgery is then counted from the start of the stage. */
  readonly operatedOn: DayNumber | null
}

/** The checks of one stage once its first day is known or expected, the earliest first. */
export function checksOf(gates: readonly PlanGate[], stage: CareStage, days: StageDays): CheckPlanned[] {
  return gates
    .filter(gate => gate.stage === stage)
    .map(gate => ({
      stage,
      check: gate.check,
      what: gate.what,
      dueOn: dueOn(gate, days),
      countedFrom: isCountedFromStage(gate, days) ? days.stageBeganOn : null,
      anchor: gate.anchor,
      intervalDays: gate.intervalDays,
      requiredFor: gate.requiredFor,
      who: gate.who,
      mark: gate.mark,
    }))
    .sort((a, b) => (a.dueOn ?? Number.POSITIVE_INFINITY) - (b.dueOn ?? Number.POSITIVE_INFINITY) || 0)
}

/** When a check that repeats is due again after it was done; null for one that does not repeat. */
export function nextDueOn(check: Pick<CheckPlanned, 'intervalDays'>, doneOn: DayNumber): DayNumber | null {
  return check.intervalDays === null ? null : doneOn + check.intervalDays
}

/**
 * Whole days in the stage before which nobody goes on: the latest first day among the checks that bar the way
 * (reference: plans, "Columns"). Checks that anchor to admission say nothing about a later stage's length.
 */
export function leastDaysIn(gates: readonly PlanGate[], stage: CareStage): number {
  return gates
    .filter(gate => gate.stage === stage && gate.requiredFor !== null && gate.anchor !== 'admission')
    .reduce((most, gate) => Math.max(most, gate.offsetDays ?? 0), 0)
}

function isCountedFromStage({ anchor, offsetDays }: PlanGate, { operatedOn }: StageDays): boolean {
  return offsetDays !== null && (anchor === 'stage start' || (anchor === 'surgery' && operatedOn === null))
}

function dueOn(gate: PlanGate, days: StageDays): DayNumber | null {
  if (gate.offsetDays === null) return null
  switch (gate.anchor) {
    case 'admission':
      return days.admittedOn + gate.offsetDays
    case 'surgery':
      return (days.operatedOn ?? days.stageBeganOn) + gate.offsetDays
    case 'stage start':
      return days.stageBeganOn + gate.offsetDays
    case 'stage end':
      return null
  }
}
