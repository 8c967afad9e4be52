/**
 * The reference tables of seed/reference, read as the trade's knowledge, for tests that check against them.
 */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parse } from 'csv-parse/sync'
import { CARE_STAGES, HOUSING_TYPES } from '#lib/domain/housing.ts'
import { knowledge } from '#lib/domain/knowledge.ts'
import { HIGH_RISK_INFLUENZA_GROUPS } from '#lib/domain/species.ts'
import { type Trade, tradeOf } from '#lib/domain/trade.ts'

type Row = Record<string, string>

export function referenceRows(name: string): Row[] {
  const path = fileURLToPath(new URL(`../../seed/reference/${name}.csv`, import.meta.url))
  return parse(readFileSync(path, 'utf8'), { columns: true, skip_empty_lines: true })
}

/** Everything the reference says, as the tool reads it. */
export function referenceTrade(): Trade {
  return tradeOf(
    knowledge.parse({
      revision: 1,
      groups: referenceRows('groups').map(groupOf),
      species: referenceRows('species').map(speciesOf),
      conditions: referenceRows('conditions').map(conditionOf),
      planGroups: referenceRows('plan-groups').map(row => ({
        slug: row['plan_group'],
        class: row['class'],
        groups: list(row['groups']),
        species: list(row['species']),
        age: words(row['age']),
        wider: words(row['wider']),
      })),
      plans: plansOf(),
      keys: referenceRows('keys').map(row => ({
        ...row,
        clock_holders: list(row['clock_holders']),
        needs_holder: row['needs_holder'] === 'yes',
        jurisdiction: words(row['jurisdiction']),
        clock_days: list(row['clock_days']).map(Number),
        reviewed_on: null,
      })),
      places: [],
    }),
  )
}

const list = (text: string | undefined) =>
  (text ?? '')
    .split(';')
    .map(word => word.trim())
    .filter(word => word !== '')
const number = (text: string | undefined) => (text === undefined || text === '' ? null : Number(text))
const words = (text: string | undefined) => (text === undefined || text === '' ? null : text)

function speciesOf(row: Row) {
  return {
    ...row,
    also_called: list(row['also_called']),
    scientific_name: words(row['scientific_name']),
    group_slug: row['group'],
    mass_g_low: number(row['mass_g_low']),
    mass_g_high: number(row['mass_g_high']),
    size_rank: number(row['size_rank']),
    flight_length_min_m: number(row['flight_length_min_m']),
    flight_mark: words(row['flight_mark']),
    company_slug: row['may_share_with'],
    preys: row['preys'] === 'none' ? null : row['preys'],
    is_imprint_risk: row['imprint_risk_young'] === 'yes',
    young_from_month: number(row['young_from_month']),
    young_to_month: number(row['young_to_month']),
    young_mark: words(row['young_mark']),
    main_reasons: list(row['main_reasons']),
    handling_cautions: list(row['handling_caution']),
    licence_keys: list(row['licence_key']),
    licence_mark: words(row['licence_mark']),
    release_season_note: words(row['release_season_note']),
    note: words(row['note']),
    is_stand_in: (row['note'] ?? '').startsWith('STAND-IN'),
  }
}

function groupOf(row: Row) {
  return {
    ...row,
    housing: Object.fromEntries(
      CARE_STAGES.map(stage => [stage, list(row[`housing_${stage.split(' ')[0]}`])]),
    ),
    stock: Object.fromEntries(
      HOUSING_TYPES.flatMap(type => {
        const stock = number(row[`stock_${type}`])
        return stock === null ? [] : [[type, stock]]
      }),
    ),
    minutes: {},
    is_high_risk_influenza: HIGH_RISK_INFLUENZA_GROUPS.includes(row['slug'] ?? ''),
  }
}

function conditionOf(row: Row) {
  return {
    ...row,
    words: list(row['words']),
    may_need_surgeon: words(row['may_need_surgeon']),
    mark_surgeon: words(row['mark_surgeon']),
    deadline_note: words(row['deadline_note']),
    mark_deadline: words(row['mark_deadline']),
    mark_quarantine: words(row['mark_quarantine']),
    asks_first: list(row['asks_first']),
    cautions: list(row['cautions']),
  }
}

function plansOf() {
  const gates = byPlan(referenceRows('gates'))
  return [...byPlan(referenceRows('plans'))].map(([id, rows]) => ({
    id,
    condition_slug: rows[0]?.['condition'],
    plan_group_slug: rows[0]?.['species_group'],
    severity: rows[0]?.['severity'],
    treatment: rows[0]?.['treatment'] || 'none',
    stages: rows.map(stageOf),
    gates: (gates.get(id) ?? []).map(row => ({
      ...row,
      offset_days: number(row['offset_days']),
      interval_days: number(row['interval_days']),
      required_for: words(row['required_for']),
      note: words(row['note']),
    })),
  }))
}

function stageOf({ left, ...row }: Row) {
  const texts = ['stage', 'housing_type', 'goes_on_means']
  const maybe = ['min_size_note', 'calendar_gate', 'gate_opens', 'gate_closes', 'note']
  const read = Object.entries(row).map(([name, text]) => [
    name,
    texts.includes(name)
      ? text
      : maybe.includes(name) || name.startsWith('mark_')
        ? words(text)
        : number(text),
  ])
  return { ...Object.fromEntries(read), left_care: Number(left) }
}

function byPlan(rows: readonly Row[]): Map<string, Row[]> {
  const found = new Map<string, Row[]>()
  for (const row of rows) {
    const id = row['plan_id'] ?? ''
    found.set(id, [...(found.get(id) ?? []), row])
  }
  return found
}
