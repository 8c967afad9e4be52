/**
 * Turns the reference tables into rows: species, groups, conditions, care plans and gates, each number with its mark.
 * Nothing is altered on the way; what the network adds of its own (which groups count as high risk for bird flu)
 * is read from the handling keys of their species.
 */
import { CARE_STAGES, HOUSING_TYPES } from '#lib/domain/housing.ts'
import type { Row } from './bulk.ts'
import { type CsvRow, listOf, need, numberOf, readReference } from './csv.ts'

/** Animals that nobody has named yet share with nobody: each kind has a company of its own. */
const STAND_IN_COMPANY = 'unidentified-'
const INFLUENZA_KEY = 'hpai-outside-first'
/** The day the tables were put together: what the screens show as "last reviewed". */
const REVIEWED_ON = '2026-11-01'
/** Read for an earlier year and not looked at again, by the reference's own words: the demonstration flags them. */
const READ_FOR_AN_EARLIER_YEAR: Readonly<Record<string, string>> = {
  'en-schedule-9-native': '2024-04-02',
  'sc-schedule-4-keeping': '2025-03-11',
}

/** Table name and rows, in the order in which they must be put in. */
export function referenceRows(): [table: string, rows: Row[]][] {
  const species = readReference('species')
  const plans = readReference('plans')
  const keys = readReference('keys')
  return [
    ['reference_key', keys.map(keyRow)],
    ['company', companyRows(keys, species)],
    ['species_group', readReference('groups').map(group => groupRow(group, species))],
    ['species', species.map(speciesRow)],
    ['condition', readReference('conditions').map(conditionRow)],
    ['plan_group', planGroupRows(readReference('plan-groups'))],
    ['care_plan', planRows(plans)],
    ['care_plan_stage', plans.map(stageRow)],
    ['care_plan_gate', readReference('gates').map(gateRow)],
    ['species_season', readReference('seasons').map(seasonRow)],
  ]
}

function keyRow(row: CsvRow): Row {
  return {
    kind: need(row, 'kind'),
    key: need(row, 'key'),
    meaning: need(row, 'meaning'),
    jurisdiction: row['jurisdiction'],
    clock_days: listOf(row, 'clock_days').map(Number),
    clock_holders: listOf(row, 'clock_holders'),
    needs_holder: row['needs_holder'] === 'yes',
    mark: need(row, 'mark'),
    reviewed_on: row['kind'] === 'licence' ? reviewedOn(need(row, 'key')) : null,
  }
}

function seasonRow(row: CsvRow): Row {
  return {
    species_slug: need(row, 'species'),
    kind: need(row, 'kind'),
    opens: need(row, 'opens'),
    closes: need(row, 'closes'),
    grams: numberOf(row, 'grams') ?? null,
    mark: need(row, 'mark'),
    note: row['note'] ?? '',
  }
}

function reviewedOn(key: string): string {
  return READ_FOR_AN_EARLIER_YEAR[key] ?? REVIEWED_ON
}

function companyRows(keys: readonly CsvRow[], species: readonly CsvRow[]): Row[] {
  return keys
    .filter(row => row['kind'] === 'company')
    .map(row => {
      const slug = need(row, 'key')
      const sides = new Set(species.filter(s => s['may_share_with'] === slug).map(s => preysOf(s)))
      if (sides.size > 1) throw new RangeError(`company ${slug} needs one side, got predators and prey`)
      return { slug, members: need(row, 'meaning'), preys: [...sides][0] ?? null, mark: need(row, 'mark') }
    })
}

function preysOf(species: CsvRow): string | null {
  const preys = need(species, 'preys')
  return preys === 'none' ? null : preys
}

function groupRow(row: CsvRow, species: readonly CsvRow[]): Row {
  const slug = need(row, 'slug')
  const stages = CARE_STAGES.map(stage => [stage, stage.split(' ')[0] ?? stage] as const)
  const housing = stages.flatMap(([stage, column]) => {
    const types = listOf(row, `housing_${column}`)
    return types.length === 0 ? [] : [[stage, types] as const]
  })
  const stock = HOUSING_TYPES.flatMap(type => {
    const animals = numberOf(row, `stock_${type}`)
    return animals === undefined ? [] : [[type, animals] as const]
  })
  const minutes = [...stages, ['hand-rearing', 'hand_rearing'] as const].flatMap(([stage, column]) => {
    const perDay = numberOf(row, `minutes_${column}`)
    return perDay === undefined ? [] : [[stage, perDay] as const]
  })
  return {
    slug,
    name: need(row, 'name'),
    class: need(row, 'class'),
    default_company: need(row, 'default_company'),
    housing: Object.fromEntries(housing),
    stock: Object.fromEntries(stock),
    stock_mark: need(row, 'stock_mark'),
    minutes: Object.fromEntries(minutes),
    minutes_mark: need(row, 'minutes_mark'),
    temperament: need(row, 'temperament'),
    temperament_mark: 'CP',
    reviewed_on: REVIEWED_ON,
    is_high_risk_influenza: species.some(
      s => s['group'] === slug && listOf(s, 'handling_caution').includes(INFLUENZA_KEY),
    ),
  }
}

function speciesRow(row: CsvRow): Row {
  return {
    slug: need(row, 'slug'),
    common_name: need(row, 'common_name'),
    also_called: listOf(row, 'also_called'),
    scientific_name: row['scientific_name'],
    class: need(row, 'class'),
    group_slug: need(row, 'group'),
    mass_g_low: numberOf(row, 'mass_g_low'),
    mass_g_high: numberOf(row, 'mass_g_high'),
    mass_mark: need(row, 'mass_mark'),
    size_rank: numberOf(row, 'size_rank'),
    flight_length_min_m: numberOf(row, 'flight_length_min_m'),
    flight_mark: row['flight_mark'],
    adult_alone: need(row, 'adult_alone'),
    company_slug: need(row, 'may_share_with'),
    preys: preysOf(row),
    is_imprint_risk: need(row, 'imprint_risk_young') === 'yes',
    young_from_month: numberOf(row, 'young_from_month'),
    young_to_month: numberOf(row, 'young_to_month'),
    young_mark: row['young_mark'],
    main_reasons: listOf(row, 'main_reasons'),
    handling_cautions: listOf(row, 'handling_caution'),
    licence_keys: listOf(row, 'licence_key'),
    licence_mark: row['licence_mark'],
    reviewed_on: listOf(row, 'licence_key').map(reviewedOn).sort()[0] ?? null,
    release_season_note: row['release_season_note'],
    note: row['note'],
    is_stand_in: need(row, 'may_share_with').startsWith(STAND_IN_COMPANY),
  }
}

function conditionRow(row: CsvRow): Row {
  return {
    slug: need(row, 'slug'),
    name: need(row, 'name'),
    kind: need(row, 'kind'),
    words: listOf(row, 'words'),
    applies_to: need(row, 'applies_to'),
    default_urgency: need(row, 'default_urgency'),
    mark_urgency: need(row, 'mark_urgency'),
    may_need_surgeon: row['may_need_surgeon'],
    mark_surgeon: row['mark_surgeon'],
    deadline_note: row['deadline_note'],
    mark_deadline: row['mark_deadline'],
    quarantine: need(row, 'quarantine'),
    mark_quarantine: row['mark_quarantine'],
    asks_first: listOf(row, 'asks_first'),
    cautions: listOf(row, 'cautions'),
  }
}

/** A group names its wider one, so the wider ones go in first. */
function planGroupRows(rows: readonly CsvRow[]): Row[] {
  const done = new Set<string>()
  const sorted: CsvRow[] = []
  let waiting = [...rows]
  while (waiting.length > 0) {
    const next = waiting.filter(row => row['wider'] === undefined || done.has(row['wider']))
    if (next.length === 0) throw new RangeError('wider needs a chain with an end, got a circle')
    for (const row of next) done.add(need(row, 'plan_group'))
    sorted.push(...next)
    waiting = waiting.filter(row => !done.has(need(row, 'plan_group')))
  }
  return sorted.map(row => ({
    slug: need(row, 'plan_group'),
    class: need(row, 'class'),
    groups: listOf(row, 'groups'),
    species: listOf(row, 'species'),
    age: row['age'],
    wider: row['wider'],
  }))
}

function planRows(stages: readonly CsvRow[]): Row[] {
  const plans = new Map(
    stages.map(row => [
      need(row, 'plan_id'),
      {
        id: need(row, 'plan_id'),
        condition_slug: need(row, 'condition'),
        plan_group_slug: need(row, 'species_group'),
        severity: need(row, 'severity'),
        treatment: row['treatment'] ?? 'none',
      },
    ]),
  )
  return [...plans.values()]
}

const STAGE_TEXTS = [
  'min_size_note',
  'calendar_gate',
  'gate_opens',
  'gate_closes',
  'mark_size',
  'mark_durations',
  'mark_exit_times',
  'mark_shares',
  'mark_minutes',
  'note',
] as const
const STAGE_NUMBERS = [
  'ready_median_days',
  'ready_p90_days',
  'gate_min_days',
  'gate_lag_median_days',
  'gate_lag_p90_days',
  'goes_on',
  'died',
  'euthanased',
  'died_median_days',
  'died_p90_days',
  'euthanased_median_days',
  'euthanased_p90_days',
  'carer_minutes_day',
] as const

function stageRow(row: CsvRow): Row {
  return {
    plan_id: need(row, 'plan_id'),
    stage_no: numberOf(row, 'stage_no'),
    stage: need(row, 'stage'),
    housing_type: need(row, 'housing_type'),
    goes_on_means: need(row, 'goes_on_means'),
    left_care: numberOf(row, 'left'),
    ...Object.fromEntries(STAGE_TEXTS.map(column => [column, row[column]])),
    ...Object.fromEntries(STAGE_NUMBERS.map(column => [column, numberOf(row, column)])),
  }
}

function gateRow(row: CsvRow): Row {
  return {
    plan_id: need(row, 'plan_id'),
    stage: need(row, 'stage'),
    check_slug: need(row, 'check_slug'),
    what: need(row, 'what'),
    offset_days: numberOf(row, 'offset_days'),
    interval_days: numberOf(row, 'interval_days'),
    anchor: need(row, 'anchor'),
    required_for: row['required_for'],
    who: need(row, 'who'),
    mark: need(row, 'mark'),
    note: row['note'],
  }
}
