/**
 * Care plans between the records' columns and the values of the form.
 * Promise: nothing is rounded or lost on the way, so a stage that is read and written back is the same stage.
 */
import { z } from 'zod'
import { planGate, SEVERITIES, TREATMENTS } from './care-plan.ts'
import type { GateValues, PlanHead, StageValues } from './care-plan-form.ts'
import { CARE_STAGES, HOUSING_TYPES } from './housing.ts'

type StageRow = {
  readonly stage: string
  readonly housingType: string
  readonly minSizeNote: string | null
  readonly readyMedianDays: number | null
  readonly readyP90Days: number | null
  readonly calendarGate: string | null
  readonly gateOpens: string | null
  readonly gateCloses: string | null
  readonly gateMinDays: number | null
  readonly gateLagMedianDays: number | null
  readonly gateLagP90Days: number | null
  readonly goesOn: number
  readonly died: number
  readonly euthanased: number
  readonly leftCare: number
  readonly diedMedianDays: number | null
  readonly diedP90Days: number | null
  readonly euthanasedMedianDays: number | null
  readonly euthanasedP90Days: number | null
  readonly carerMinutesDay: number | null
  readonly markSize: string | null
  readonly markDurations: string | null
  readonly markExitTimes: string | null
  readonly markShares: string | null
  readonly markMinutes: string | null
  readonly note: string | null
}

type GateRow = {
  readonly stage: string
  readonly checkSlug: string
  readonly what: string
  readonly offsetDays: number | null
  readonly intervalDays: number | null
  readonly anchor: string
  readonly requiredFor: string | null
  readonly who: string
  readonly mark: string
  readonly note: string | null
}

const stageName = z.enum(CARE_STAGES)
const housing = z.enum(HOUSING_TYPES)
const severity = z.enum(SEVERITIES)
const treatment = z.enum(TREATMENTS)
const { anchor, requiredFor, who } = planGate.shape

export function stageOfRow(row: StageRow): StageValues {
  return {
    stage: stageName.parse(row.stage),
    housing: housing.parse(row.housingType),
    sizeNote: row.minSizeNote,
    medianDays: row.readyMedianDays,
    p90Days: row.readyP90Days,
    waitsFor: row.calendarGate,
    opens: row.gateOpens,
    closes: row.gateCloses,
    minDays: row.gateMinDays,
    lagMedianDays: row.gateLagMedianDays,
    lagP90Days: row.gateLagP90Days,
    onward: row.goesOn,
    died: row.died,
    euthanased: row.euthanased,
    left: row.leftCare,
    diedMedianDays: row.diedMedianDays,
    diedP90Days: row.diedP90Days,
    euthanasedMedianDays: row.euthanasedMedianDays,
    euthanasedP90Days: row.euthanasedP90Days,
    carerMinutesPerDay: row.carerMinutesDay,
    sizeMark: row.markSize,
    lengthsMark: row.markDurations,
    exitTimesMark: row.markExitTimes,
    sharesMark: row.markShares,
    minutesMark: row.markMinutes,
    note: row.note,
  }
}

export function rowOfStage(stage: StageValues): StageRow {
  return {
    stage: stage.stage,
    housingType: stage.housing,
    minSizeNote: stage.sizeNote,
    readyMedianDays: stage.medianDays,
    readyP90Days: stage.p90Days,
    calendarGate: stage.waitsFor,
    gateOpens: stage.opens,
    gateCloses: stage.closes,
    gateMinDays: stage.minDays,
    gateLagMedianDays: stage.lagMedianDays,
    gateLagP90Days: stage.lagP90Days,
    goesOn: stage.onward,
    died: stage.died,
    euthanased: stage.euthanased,
    leftCare: stage.left,
    diedMedianDays: stage.diedMedianDays,
    diedP90Days: stage.diedP90Days,
    euthanasedMedianDays: stage.euthanasedMedianDays,
    euthanasedP90Days: stage.euthanasedP90Days,
    carerMinutesDay: stage.carerMinutesPerDay,
    markSize: stage.sizeMark,
    markDurations: stage.lengthsMark,
    markExitTimes: stage.exitTimesMark,
    markShares: stage.sharesMark,
    markMinutes: stage.minutesMark,
    note: stage.note,
  }
}

export function gateOfRow(row: GateRow): GateValues {
  return {
    stage: stageName.parse(row.stage),
    check: row.checkSlug,
    what: row.what,
    offsetDays: row.offsetDays,
    intervalDays: row.intervalDays,
    anchor: anchor.parse(row.anchor),
    requiredFor: requiredFor.parse(row.requiredFor),
    who: who.parse(row.who),
    mark: row.mark,
    note: row.note,
  }
}

export function rowOfGate(gate: GateValues): GateRow {
  const { check, ...same } = gate
  return { ...same, checkSlug: check }
}

export function headOfRow(row: {
  readonly conditionSlug: string
  readonly planGroupSlug: string
  readonly severity: string
  readonly treatment: string
}): PlanHead {
  return {
    condition: row.conditionSlug,
    planGroup: row.planGroupSlug,
    severity: severity.parse(row.severity),
    treatment: treatment.parse(row.treatment),
  }
}
