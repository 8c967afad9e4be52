/**
 * Care plans on the pages of setup: what a stage says of its length, of how it ends, of the time it takes, each with
 * the mark of where the number comes from. Days, per cent, minutes a day.
 */
import type { Severity, Treatment } from '#lib/domain/care-plan.ts'
import type { GateValues, StageValues } from '#lib/domain/care-plan-form.ts'
import { markWords } from './mark.ts'

export const PLAN_PAGE = {
  condition: 'Condition',
  animals: 'Animals',
  howBad: 'How bad',
  treatment: 'Treatment',
  stages: 'Stages',
  stagesNote: 'In the order of care. Beside each number stands where it comes from.',
  noStages: 'This plan has no stage yet',
  noStagesComing: 'Until it has one, no animal is given this plan.',
  gates: 'Gates and checks',
  gatesNote: 'What is looked at, and what must be passed before an animal goes on.',
  noGates: 'This plan has no checks yet',
  noGatesComing: 'A check stands here once it is added.',
  addStage: 'Add a stage',
  addGate: 'Add a check',
  change: 'Change',
  backToPlan: 'Back to the plan',
  housing: 'Housing',
  size: 'Size',
  length: 'Length',
  ends: 'How it ends',
  whenEnds: 'When, if it ends here',
  minutes: 'Carer time',
  note: 'Note',
  check: 'Check',
  what: 'What is looked at',
  due: 'Due',
  needed: 'Needed for',
  who: 'Done by',
  source: 'Source',
  copies: 'Animals in care keep the plan they came with.',
  takeOut: 'Taking out',
  takeOutStage: 'Take this stage out of the plan',
  takeOutGate: 'Take this check out of the plan',
  takeOutNote: 'Animals in care keep theirs.',
} as const

export const STAGE_FORM = {
  what: 'The stage',
  stage: 'Stage of care',
  housing: 'Housing',
  sizeNote: 'Size wanted, in words',
  waitsFor: 'What it waits for, if not only for time',
  length: 'How long',
  lengthNote:
    'Either a usual time and one that nine of ten keep, or a day of the year on which it opens, with the days that follow it.',
  median: 'Usual time',
  p90: 'Nine of ten within',
  opens: 'Opens on',
  opensHint: 'Month and day, such as 03-20; empty where no date counts',
  closes: 'Closes on',
  minDays: 'At least in the stage',
  lagMedian: 'After it opens, usually',
  lagP90: 'After it opens, nine of ten within',
  ends: 'How it ends',
  endsNote: 'The four shares add up to 100 %.',
  onward: 'Goes on',
  died: 'Dies',
  euthanased: 'Is euthanased by a vet',
  left: 'Leaves in another way',
  times: 'When those end that do not go on',
  timesNote: 'Empty: as for raptors of all causes, a median of 2 days and 31 days for nine of ten (S26).',
  diedMedian: 'Died, usual time',
  diedP90: 'Died, nine of ten within',
  euthanasedMedian: 'Euthanased, usual time',
  euthanasedP90: 'Euthanased, nine of ten within',
  minutes: 'Carer time',
  sources: 'Where the numbers come from',
  sourcesNote:
    'R:S12 was read in source 12, D is worked out, A by likeness, M from memory, CP common practice. A number that is changed becomes ours unless another source is named.',
  sizeMark: 'Source of the size',
  lengthsMark: 'Source of the length',
  sharesMark: 'Source of the shares',
  exitTimesMark: 'Source of the times',
  minutesMark: 'Source of the carer time',
  note: 'Note',
  save: 'Save this stage',
} as const

export const GATE_FORM = {
  head: 'The check',
  stage: 'In the stage',
  check: 'Check',
  checkHint: 'A short key without spaces, such as flight-test',
  what: 'What is looked at',
  when: 'When',
  whenNote: 'Empty: when the animal is ready. A check that repeats is due again after the days given.',
  offset: 'Due after',
  interval: 'Repeats every',
  anchor: 'Counted from',
  requiredFor: 'Needed for',
  bars: 'nothing, it is only due',
  who: 'Done by',
  mark: 'Source',
  note: 'Note',
  save: 'Save this check',
  days: 'days',
} as const

const SEVERITY: Readonly<Record<Severity, string>> = {
  any: 'however bad',
  mild: 'mild',
  moderate: 'moderate',
  severe: 'severe',
  closed: 'closed',
  open: 'open',
}
const TREATMENT: Readonly<Record<Treatment, string>> = {
  none: 'no special treatment',
  conservative: 'without surgery',
  surgical: 'with surgery',
}

export function severityWords(severity: Severity): string {
  return SEVERITY[severity]
}

export function treatmentWords(treatment: Treatment): string {
  return TREATMENT[treatment]
}

/** "Broken wing, bone not known, any bird: moderate, with surgery". */
export function planAnswer(plan: {
  readonly conditionName: string
  readonly planGroup: string
  readonly severity: Severity
  readonly treatment: Treatment
}): string {
  const how = `${SEVERITY[plan.severity]}, ${TREATMENT[plan.treatment]}`
  return `${plan.conditionName}, ${plan.planGroup}: ${how}`
}

/** "Usually 7 days, nine of ten within 18 days". */
export function lengthWords(stage: StageValues): string {
  const parts: string[] = []
  if (stage.opens !== null) {
    parts.push(`opens on ${stage.opens}${stage.closes === null ? '' : `, closes on ${stage.closes}`}`)
    if (stage.lagMedianDays !== null && stage.lagP90Days !== null) {
      parts.push(`then usually ${days(stage.lagMedianDays)}, nine of ten within ${days(stage.lagP90Days)}`)
    }
    if (stage.minDays !== null) parts.push(`at least ${days(stage.minDays)}`)
  } else if (stage.medianDays !== null && stage.p90Days !== null) {
    parts.push(`usually ${days(stage.medianDays)}, nine of ten within ${days(stage.p90Days)}`)
  }
  if (stage.waitsFor !== null) parts.push(`waits for ${stage.waitsFor}`)
  return parts.join('; ')
}

/** "Goes on 87 %, died 7 %, euthanased by a vet 5 %, left 1 %". */
export function endsWords(stage: StageValues): string {
  return [
    `goes on ${percent(stage.onward)}`,
    `died ${percent(stage.died)}`,
    `euthanased by a vet ${percent(stage.euthanased)}`,
    `left in another way ${percent(stage.left)}`,
  ].join(', ')
}

/** When those end that do not go on; where the plan says nothing, what is used instead. */
export function exitTimesWords(stage: StageValues): string {
  return [
    `died: ${timeWords(stage.diedMedianDays, stage.diedP90Days)}`,
    `euthanased: ${timeWords(stage.euthanasedMedianDays, stage.euthanasedP90Days)}`,
  ].join('; ')
}

/** A number in words with its mark. */
export function withMark(words: string, mark: string | null): string {
  return `${words} (${markWords(mark)})`
}

/** "12 minutes a day". */
export function minutesWords(minutes: number | null): string {
  return minutes === null ? 'not said' : `${minutes} minutes a day`
}

const ANCHOR: Readonly<Record<GateValues['anchor'], string>> = {
  admission: 'admission',
  surgery: 'surgery',
  'stage start': 'the start of the stage',
  'stage end': 'the end of the stage',
}

export function anchorWords(anchor: GateValues['anchor']): string {
  return ANCHOR[anchor]
}

/** "3 days after surgery, then every 7 days". */
export function dueWords({
  offsetDays,
  intervalDays,
  anchor,
}: Pick<GateValues, 'offsetDays' | 'intervalDays' | 'anchor'>): string {
  const first =
    offsetDays === null
      ? 'when it is ready'
      : offsetDays === 0
        ? `at ${ANCHOR[anchor]}`
        : `${days(offsetDays)} after ${ANCHOR[anchor]}`
  return intervalDays === null ? first : `${first}, then every ${days(intervalDays)}`
}

/** "3 stages, 7 checks". */
export function planBasis(stages: number, gates: number): string {
  return `${stages === 1 ? '1 stage' : `${stages} stages`}, ${gates === 1 ? '1 check' : `${gates} checks`}`
}

function timeWords(median: number | null, p90: number | null): string {
  return median === null || p90 === null
    ? 'usually 2 days, nine of ten within 31 days, as the plan says nothing'
    : `usually ${days(median)}, nine of ten within ${days(p90)}`
}

function days(count: number): string {
  return count === 1 ? '1\u00a0day' : `${count}\u00a0days`
}

function percent(share: number): string {
  return `${Number((share * 100).toFixed(1))}\u00a0%`
}
