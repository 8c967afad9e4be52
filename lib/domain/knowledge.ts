/**
 * What the trade knows, as the tool reads it: species and groups, conditions, care plans with stages and gates,
 * cautions and licences, the gazetteer. Every number keeps its source mark. Changed only in setup.
 */
import { z } from 'zod'
import { CARE_STAGES, HOUSING_TYPES } from './housing.ts'
import { HOLDERS } from './licence.ts'

const klass = z.enum(['bird', 'mammal'])
const text = z.string().nullable()
const number = z.number().nullable()
const words = z.array(z.string())

const groupKnowledge = z.object({
  slug: z.string(),
  name: z.string(),
  class: klass,
  default_company: z.string(),
  housing: z.partialRecord(z.enum(CARE_STAGES), z.array(z.enum(HOUSING_TYPES))),
  stock: z.partialRecord(z.enum(HOUSING_TYPES), z.int()),
  stock_mark: z.string(),
  minutes: z.record(z.string(), z.number()),
  minutes_mark: z.string(),
  temperament: z.string(),
  is_high_risk_influenza: z.boolean(),
})

const speciesKnowledge = z.object({
  slug: z.string(),
  common_name: z.string(),
  also_called: words,
  scientific_name: text,
  class: klass,
  group_slug: z.string(),
  mass_g_low: number,
  mass_g_high: number,
  mass_mark: z.string(),
  size_rank: z.int(),
  flight_length_min_m: number,
  flight_mark: text,
  adult_alone: z.enum(['yes', 'season', 'no']),
  company_slug: z.string(),
  preys: z.enum(['predator', 'prey']).nullable(),
  is_imprint_risk: z.boolean(),
  young_from_month: z.int().nullable(),
  young_to_month: z.int().nullable(),
  young_mark: text,
  main_reasons: words,
  handling_cautions: words,
  licence_keys: words,
  licence_mark: text,
  release_season_note: text,
  note: text,
  is_stand_in: z.boolean(),
})

const conditionKnowledge = z.object({
  slug: z.string(),
  name: z.string(),
  kind: z.enum(['reason', 'finding']),
  words,
  applies_to: z.enum(['bird', 'mammal', 'both']),
  default_urgency: z.enum(['now', 'today', 'tomorrow', 'advice']),
  mark_urgency: z.string(),
  may_need_surgeon: text,
  mark_surgeon: text,
  deadline_note: text,
  mark_deadline: text,
  quarantine: z.enum(['none', 'screen', 'isolate']),
  mark_quarantine: text,
  asks_first: words,
  cautions: words,
})

const planGroupKnowledge = z.object({
  slug: z.string(),
  class: klass,
  groups: words,
  species: words,
  age: z.enum(['adult', 'young']).nullable(),
  wider: text,
})

const planStageKnowledge = z.object({
  stage_no: z.int(),
  stage: z.enum(CARE_STAGES),
  housing_type: z.enum(HOUSING_TYPES),
  min_size_note: text,
  ready_median_days: number,
  ready_p90_days: number,
  calendar_gate: text,
  gate_opens: text,
  gate_closes: text,
  gate_min_days: number,
  gate_lag_median_days: number,
  gate_lag_p90_days: number,
  goes_on_means: z.string(),
  goes_on: z.number(),
  died: z.number(),
  euthanased: z.number(),
  left_care: z.number(),
  died_median_days: number,
  died_p90_days: number,
  euthanased_median_days: number,
  euthanased_p90_days: number,
  carer_minutes_day: number,
  mark_size: text,
  mark_durations: text,
  mark_exit_times: text,
  mark_shares: text,
  mark_minutes: text,
  note: text,
})

const planGateKnowledge = z.object({
  stage: z.string(),
  check_slug: z.string(),
  what: z.string(),
  offset_days: z.int().nullable(),
  interval_days: z.int().nullable(),
  anchor: z.string(),
  required_for: text,
  who: z.string(),
  mark: z.string(),
  note: text,
})

const planKnowledge = z.object({
  id: z.string(),
  condition_slug: z.string(),
  plan_group_slug: z.string(),
  severity: z.string(),
  treatment: z.string(),
  stages: z.array(planStageKnowledge),
  gates: z.array(planGateKnowledge),
})

export const knowledge = z.object({
  revision: z.int(),
  /** Where the network is; empty without one. */
  jurisdiction: z.string().default(''),
  groups: z.array(groupKnowledge),
  species: z.array(speciesKnowledge),
  conditions: z.array(conditionKnowledge),
  planGroups: z.array(planGroupKnowledge),
  plans: z.array(planKnowledge),
  keys: z.array(
    z.object({
      kind: z.enum(['housing', 'handling', 'licence', 'company']),
      key: z.string(),
      meaning: z.string(),
      jurisdiction: text,
      clock_days: z.array(z.int()),
      clock_holders: z.array(z.enum(HOLDERS)).default([]),
      needs_holder: z.boolean().default(false),
      holders: z.array(z.object({ centreId: z.int(), from: z.string(), until: text })).default([]),
      mark: z.string(),
      reviewed_on: text,
    }),
  ),
  places: z.array(
    z.object({
      id: z.int(),
      name: z.string(),
      kind: z.string(),
      also_called: words,
      latitude: z.number(),
      longitude: z.number(),
    }),
  ),
})

export type Knowledge = z.infer<typeof knowledge>
export type SpeciesKnowledge = Knowledge['species'][number]
export type GroupKnowledge = Knowledge['groups'][number]
export type ConditionKnowledge = Knowledge['conditions'][number]
export type PlanGroupKnowledge = Knowledge['planGroups'][number]
export type PlanKnowledge = Knowledge['plans'][number]
export type PlanStageKnowledge = PlanKnowledge['stages'][number]
