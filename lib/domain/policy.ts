/**
 * The policy of the network: what the options weigh, in place-days, and the presets in which it is usually set.
 * Promise: the limits are those of the table; kappa and omega come with a preset; an administrator may set others. The weights are ours, no source; the presets are measured on a simulated year, also ours.
 */
import { z } from 'zod'
import { percentText } from './form-rows.ts'
import { decimalText, integerText } from './text.ts'

export const PRESETS = ['fewer-moves', 'balanced', 'proper-place-first'] as const
export type Preset = (typeof PRESETS)[number]

/** Kappa damps what the forecast says of later days; omega weighs a night of arrival without a proper place. */
export const PRESET_WEIGHTS = {
  'fewer-moves': { kappa: 0.5, omega: 1 },
  balanced: { kappa: 0.4, omega: 4 },
  'proper-place-first': { kappa: 0.3, omega: 6 },
} as const satisfies Record<Preset, { readonly kappa: number; readonly omega: number }>

export const PLACE_DAYS_MAX = 1000
export const KM_MAX = 10_000
export const HOLD_MAX_MIN = 7 * 1440
/** Beyond a day nobody waits for an alarm. */
export const LATE_MAX_MIN = 1440
export const FINDER_MAX_DAYS = 3650

const OMEGA_MAX = 100

const weight = z.number().min(0).max(PLACE_DAYS_MAX)

export const policyFields = {
  preset: z.enum(PRESETS).meta({ title: 'Preset' }),
  transferPlaceDays: weight.meta({ title: 'A transfer counts like', unit: 'place-days' }),
  kmPerPlaceDay: z.number().positive().max(KM_MAX).meta({ title: 'One place-day counts like', unit: 'km' }),
  refusalPlaceDays: weight.meta({ title: 'Turning an animal away counts like', unit: 'place-days' }),
  redirectPlaceDays: weight.meta({ title: 'Sending it outside counts like', unit: 'place-days' }),
  keepAdvicePlaceDays: weight.meta({ title: 'Kept till morning, not urgent', unit: 'place-days' }),
  keepTomorrowPlaceDays: weight.meta({ title: 'Kept till morning, due tomorrow', unit: 'place-days' }),
  keepTodayPlaceDays: weight.meta({ title: 'Kept till morning, due today or now', unit: 'place-days' }),
  tightChance: z.number().gt(0).lt(1).meta({ title: 'A day is tight from a chance of' }),
  holdMinutes: z.int().positive().max(HOLD_MAX_MIN).meta({ title: 'A place is held for', unit: 'minutes' }),
  askLapseMinutes: z
    .int()
    .positive()
    .max(HOLD_MAX_MIN)
    .meta({ title: 'An ask lapses after', unit: 'minutes' }),
  lateMinutes: z.int().positive().max(LATE_MAX_MIN).meta({
    title: 'A driver is late after',
    unit: 'minutes',
    hint: 'Then the line is alarmed',
  }),
  finderDays: z
    .int()
    .positive()
    .max(FINDER_MAX_DAYS)
    .meta({ title: "A finder's contact is kept for", unit: 'days' }),
}
export const policy = z.strictObject(policyFields)
export type Policy = z.infer<typeof policy>

/** What a manager sets: the preset, times and chances. */
export const policyForm = z.object({
  preset: policyFields.preset,
  tightChance: percentText.refine(chance => chance > 0 && chance < 1, {
    params: { rule: 'policy_tight_chance_is_a_share' },
  }),
  holdMinutes: integerText.pipe(policyFields.holdMinutes),
  askLapseMinutes: integerText.pipe(policyFields.askLapseMinutes),
  lateMinutes: integerText.pipe(policyFields.lateMinutes),
  finderDays: integerText.pipe(policyFields.finderDays),
})
export type PolicyChoice = z.infer<typeof policyForm>

/** The two weights behind a preset; a value tried in the seasons that were simulated lies between the hints. */
export const presetWeightFields = {
  kappa: z.number().min(0).max(1).meta({
    title: 'What the forecast says of later days counts',
    hint: 'From 0 to 1; the presets have 0.3 to 0.5',
  }),
  omega: z.number().min(0).max(OMEGA_MAX).meta({
    title: 'A night of arrival without a proper place counts like',
    unit: 'place-days',
    hint: 'The presets have 1 to 6',
  }),
}

/** What only an administrator sets: what each thing weighs. */
export const weightsForm = z.object({
  kappa: decimalText.pipe(presetWeightFields.kappa),
  omega: decimalText.pipe(presetWeightFields.omega),
  transferPlaceDays: decimalText.pipe(weight),
  kmPerPlaceDay: decimalText.pipe(policyFields.kmPerPlaceDay),
  refusalPlaceDays: decimalText.pipe(weight),
  redirectPlaceDays: decimalText.pipe(weight),
  keepAdvicePlaceDays: decimalText.pipe(weight),
  keepTomorrowPlaceDays: decimalText.pipe(weight),
  keepTodayPlaceDays: decimalText.pipe(weight),
})
export type Weights = z.infer<typeof weightsForm>

/** Whether the two weights are those of the preset, not ones of the network's own. */
export function isAsPreset(policy: { readonly preset: Preset } & Pick<Weights, 'kappa' | 'omega'>): boolean {
  const { kappa, omega } = PRESET_WEIGHTS[policy.preset]
  return policy.kappa === kappa && policy.omega === omega
}

/** What a new network starts with: transfer 2, km 1/40, refusal 20, redirect 5, kept till morning 0.25, 0.5, 3. */
export const FIRST_POLICY: Policy = {
  preset: 'balanced',
  transferPlaceDays: 2,
  kmPerPlaceDay: 40,
  refusalPlaceDays: 20,
  redirectPlaceDays: 5,
  keepAdvicePlaceDays: 0.25,
  keepTomorrowPlaceDays: 0.5,
  keepTodayPlaceDays: 3,
  tightChance: 0.2,
  holdMinutes: 240,
  askLapseMinutes: 60,
  lateMinutes: 30,
  finderDays: 90,
}
