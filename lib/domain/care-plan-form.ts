/**
 * Care plans as setup changes them: one stage, one gate, one new plan at a time, every number with its mark.
 * Promise: what these accept the plan's own schema accepts. A number that was changed is ours, whatever its mark said
 * before, unless the person who changed it names another source. Days, shares in [0, 1], minutes a day.
 */
import { z } from 'zod'
import { CARER_MINUTES_MAX, MARK_MAX, planGate, SEVERITIES, TREATMENTS, WORDS_MAX } from './care-plan.ts'
import { LENGTH_MAX_DAYS, monthDay, SHARES_TOLERANCE, sumOfShares } from './estimate.ts'
import { percentText } from './form-rows.ts'
import { CARE_STAGES, HOUSING_TYPES } from './housing.ts'
import { blankable, decimalText, integerText, optionalText } from './text.ts'

export const OURS = 'ours'
const WAITS_FOR_MAX = 60

const days = blankable(decimalText.pipe(z.number().positive().max(LENGTH_MAX_DAYS)))
const daysFromNone = blankable(decimalText.pipe(z.number().min(0).max(LENGTH_MAX_DAYS)))
const share = percentText.pipe(z.number().min(0).max(1))
const mark = optionalText(MARK_MAX)

const stageShape = z.object({
  stage: z.enum(CARE_STAGES),
  housing: z.enum(HOUSING_TYPES),
  sizeNote: optionalText(WORDS_MAX),
  medianDays: days,
  p90Days: days,
  waitsFor: optionalText(WAITS_FOR_MAX),
  opens: blankable(monthDay),
  closes: blankable(monthDay),
  minDays: daysFromNone,
  lagMedianDays: days,
  lagP90Days: days,
  onward: share,
  died: share,
  euthanased: share,
  left: share,
  diedMedianDays: days,
  diedP90Days: days,
  euthanasedMedianDays: days,
  euthanasedP90Days: days,
  carerMinutesPerDay: blankable(decimalText.pipe(z.number().min(0).max(CARER_MINUTES_MAX))),
  sizeMark: mark,
  lengthsMark: mark,
  exitTimesMark: mark,
  sharesMark: mark,
  minutesMark: mark,
  note: optionalText(WORDS_MAX),
})
export type StageValues = z.infer<typeof stageShape>

export const stageForm = stageShape.superRefine((stage, context) => {
  const refuse = (field: keyof StageValues, rule: string) =>
    context.addIssue({ code: 'custom', path: [field], params: { rule } })
  const isDated = stage.opens !== null
  checkPair(stage, ['medianDays', 'p90Days'], !isDated, refuse)
  checkPair(stage, ['lagMedianDays', 'lagP90Days'], isDated, refuse)
  checkPair(stage, ['diedMedianDays', 'diedP90Days'], false, refuse)
  checkPair(stage, ['euthanasedMedianDays', 'euthanasedP90Days'], false, refuse)
  if (!isDated && stage.closes !== null) refuse('opens', 'missing')
  if (Math.abs(sumOfShares(stage) - 1) >= SHARES_TOLERANCE) refuse('onward', 'shares-do-not-sum')
})

type Pair = 'medianDays' | 'lagMedianDays' | 'diedMedianDays' | 'euthanasedMedianDays'
type Longer = 'p90Days' | 'lagP90Days' | 'diedP90Days' | 'euthanasedP90Days'

function checkPair(
  stage: StageValues,
  [usual, longer]: readonly [Pair, Longer],
  isNeeded: boolean,
  refuse: (field: keyof StageValues, rule: string) => void,
): void {
  const [median, p90] = [stage[usual], stage[longer]]
  const isAsked = isNeeded || median !== null || p90 !== null
  if (isAsked && median === null) refuse(usual, 'missing')
  if (isAsked && p90 === null) refuse(longer, 'missing')
  if (median !== null && p90 !== null && p90 <= median) refuse(longer, 'p90-not-above-median')
}

/** Which numbers stand under which mark. */
const NUMBERS_UNDER = {
  sizeMark: ['sizeNote'],
  lengthsMark: ['medianDays', 'p90Days', 'opens', 'closes', 'minDays', 'lagMedianDays', 'lagP90Days'],
  exitTimesMark: ['diedMedianDays', 'diedP90Days', 'euthanasedMedianDays', 'euthanasedP90Days'],
  sharesMark: ['onward', 'died', 'euthanased', 'left'],
  minutesMark: ['carerMinutesPerDay'],
} as const satisfies Readonly<Record<string, readonly (keyof StageValues)[]>>
type MarkField = keyof typeof NUMBERS_UNDER

/** The mark that says where a number of a stage comes from; nothing for what is no number. */
export function markFieldOf(name: keyof StageValues): MarkField | undefined {
  return (Object.keys(NUMBERS_UNDER) as MarkField[]).find(field =>
    (NUMBERS_UNDER[field] as readonly string[]).includes(name),
  )
}

/** A stage with the marks it has after an edit: changed numbers are ours unless another source was given. */
export function withMarks(before: StageValues | undefined, after: StageValues): StageValues {
  const marked = { ...after }
  for (const field of Object.keys(NUMBERS_UNDER) as MarkField[]) {
    const isChanged = NUMBERS_UNDER[field].some(name => before?.[name] !== after[name])
    marked[field] = markAfter({ isChanged, before: before?.[field] ?? null, typed: after[field] })
  }
  return marked
}

export const gateForm = z.object({
  stage: planGate.shape.stage,
  check: planGate.shape.check,
  what: planGate.shape.what,
  offsetDays: blankable(integerText.pipe(planGate.shape.offsetDays.unwrap())),
  intervalDays: blankable(integerText.pipe(planGate.shape.intervalDays.unwrap())),
  anchor: planGate.shape.anchor,
  requiredFor: blankable(planGate.shape.requiredFor.unwrap()),
  who: planGate.shape.who,
  mark,
  note: optionalText(WORDS_MAX),
})
export type GateValues = Omit<z.infer<typeof gateForm>, 'mark'> & { readonly mark: string }

/** A gate with the mark it has after an edit. */
export function withGateMark(before: GateValues | undefined, after: z.infer<typeof gateForm>): GateValues {
  const isChanged = before?.offsetDays !== after.offsetDays || before.intervalDays !== after.intervalDays
  return { ...after, mark: markAfter({ isChanged, before: before?.mark ?? null, typed: after.mark }) ?? OURS }
}

export const planForm = z.object({
  condition: z.string().min(1).meta({ title: 'Condition' }),
  planGroup: z.string().min(1).meta({ title: 'For which animals' }),
  severity: z.enum(SEVERITIES).meta({ title: 'How bad' }),
  treatment: z.enum(TREATMENTS).meta({ title: 'Treatment' }),
})
export type PlanHead = z.infer<typeof planForm>

/** The key of a plan, made from what it is for: "wing-fracture.any-bird.severe.surgical". */
export function planIdOf({ condition, planGroup, severity, treatment }: PlanHead): string {
  return [condition, planGroup, severity, treatment].map(part => part.replace(/\s+/g, '-')).join('.')
}

function markAfter(asked: {
  readonly isChanged: boolean
  readonly before: string | null
  readonly typed: string | null
}): string | null {
  if (!asked.isChanged) return asked.typed ?? asked.before
  return asked.typed === null || asked.typed === asked.before ? OURS : asked.typed
}
