/**
 * Care plans: the ordered stages of a condition in a group of animals, with housing, lengths, odds and gates.
 * Promise: a plan read through these schemas has its stages in the order of care and keeps the source mark of every
 * number. Days are whole or broken days; shares are in [0, 1].
 */
import { z } from 'zod'
import { stageEstimate } from './estimate.ts'
import { CARE_STAGES, type CareStage, HOUSING_TYPES } from './housing.ts'

export const SEVERITIES = ['any', 'mild', 'moderate', 'severe', 'closed', 'open'] as const
export type Severity = (typeof SEVERITIES)[number]

export const TREATMENTS = ['none', 'conservative', 'surgical'] as const
export type Treatment = (typeof TREATMENTS)[number]

export const CHECKERS = ['carer', 'nurse', 'vet'] as const
export type Checker = (typeof CHECKERS)[number]

export const GATE_ANCHORS = ['admission', 'surgery', 'stage start', 'stage end'] as const

export const GATE_BARS = ['next stage', 'release'] as const
export type GateBar = (typeof GATE_BARS)[number]

export const OFFSET_MAX_DAYS = 1500
export const WORDS_MAX = 400
export const CARER_MINUTES_MAX = 1440
export const MARK_MAX = 80

const mark = z.string().max(MARK_MAX)
/** Where each number of a stage comes from: R:S# read, D derived, M memory, CP common practice, ours. */
export const stageMarks = z.strictObject({
  size: mark.nullable(),
  lengths: mark.nullable(),
  exitTimes: mark.nullable(),
  shares: mark.nullable(),
  minutes: mark.nullable(),
})
export type StageMarks = z.infer<typeof stageMarks>

export const planStage = z.strictObject({
  stage: z.enum(CARE_STAGES).meta({ title: 'Stage of care' }),
  housing: z.enum(HOUSING_TYPES).meta({ title: 'Housing' }),
  sizeNote: z.string().max(WORDS_MAX).nullable().meta({ title: 'Size wanted' }),
  estimate: stageEstimate,
  /** A gate of state that has no date (fledging, hibernation weight); the estimate's length is then the usual time. */
  stateGate: z.string().max(60).nullable().meta({ title: 'Waits for' }),
  carerMinutesPerDay: z
    .number()
    .min(0)
    .max(CARER_MINUTES_MAX)
    .nullable()
    .meta({ title: 'Carer time', unit: 'minutes a day' }),
  marks: stageMarks,
  note: z.string().max(WORDS_MAX).nullable(),
})
export type PlanStage = z.infer<typeof planStage>

export const planGate = z.strictObject({
  stage: z.enum(CARE_STAGES).meta({ title: 'Stage of care' }),
  check: z.string().min(1).max(60).meta({ title: 'Check' }),
  what: z.string().min(1).max(WORDS_MAX).meta({ title: 'What is looked at' }),
  offsetDays: z.int().min(0).max(OFFSET_MAX_DAYS).nullable().meta({ title: 'Due after', unit: 'days' }),
  intervalDays: z
    .int()
    .positive()
    .max(OFFSET_MAX_DAYS)
    .nullable()
    .meta({ title: 'Repeats every', unit: 'days' }),
  anchor: z.enum(GATE_ANCHORS).meta({ title: 'Counted from' }),
  requiredFor: z.enum(GATE_BARS).nullable().meta({ title: 'Needed for' }),
  who: z.enum(CHECKERS).meta({ title: 'Done by' }),
  mark: mark.min(1).meta({ title: 'Source' }),
  note: z.string().max(WORDS_MAX).nullable(),
})
export type PlanGate = z.infer<typeof planGate>

export const carePlan = z
  .strictObject({
    id: z.string().min(1),
    condition: z.string().min(1),
    planGroup: z.string().min(1),
    severity: z.enum(SEVERITIES).meta({ title: 'How bad' }),
    treatment: z.enum(TREATMENTS).meta({ title: 'Treatment' }),
    stages: z.array(planStage).min(1).meta({ title: 'Stages' }),
    gates: z.array(planGate).meta({ title: 'Gates and checks' }),
  })
  .refine(plan => isInOrderOfCare(plan.stages.map(stage => stage.stage)), {
    path: ['stages'],
    params: { rule: 'stages-out-of-order' },
  })
export type CarePlan = z.infer<typeof carePlan>

/** Which animals a plan is for, and the wider group to fall back to. Empty lists mean every one of the class. */
export const planGroup = z.strictObject({
  slug: z.string().min(1),
  class: z.enum(['bird', 'mammal']),
  groups: z.array(z.string()),
  species: z.array(z.string()),
  age: z.enum(['adult', 'young']).nullable(),
  wider: z.string().nullable(),
})
export type PlanGroup = z.infer<typeof planGroup>

/** The place of a stage in the order of care, from 0. */
export function orderOfCare(stage: CareStage): number {
  return CARE_STAGES.indexOf(stage)
}

/** The share of animals that begin the plan and reach release: the product of the shares that go on. */
export function releasedShare(stages: readonly { readonly estimate: PlanStage['estimate'] }[]): number {
  return stages.reduce((product, { estimate }) => product * estimate.shares.onward, 1)
}

function isInOrderOfCare(stages: readonly CareStage[]): boolean {
  return stages.every((stage, at) => {
    const before = stages[at - 1]
    return before === undefined || orderOfCare(before) < orderOfCare(stage)
  })
}
