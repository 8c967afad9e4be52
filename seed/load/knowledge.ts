/** The reference tables as the domain reads them, without a database: what the scenario and the history are made from. */
import { type Knowledge, knowledge } from '#lib/domain/knowledge.ts'
import { type Trade, tradeOf } from '#lib/domain/trade.ts'
import type { Row } from './bulk.ts'
import { referenceRows } from './reference.ts'

/** The trade's knowledge out of seed/reference. */
export function readTradeFromReference(): Trade {
  const tables = new Map(referenceRows())
  const rows = (table: string): Row[] => {
    const found = tables.get(table)
    if (found === undefined) throw new RangeError(`table needs reference rows, got ${table}`)
    return found.map(withNulls)
  }
  const stages = rows('care_plan_stage')
  const gates = rows('care_plan_gate')
  const known: Knowledge = knowledge.parse({
    revision: 0,
    groups: rows('species_group'),
    species: rows('species'),
    conditions: rows('condition'),
    planGroups: rows('plan_group'),
    plans: rows('care_plan').map(plan => ({
      ...plan,
      stages: stages.filter(stage => stage['plan_id'] === plan['id']),
      gates: gates.filter(gate => gate['plan_id'] === plan['id']),
    })),
    keys: rows('reference_key'),
    places: [],
  })
  return tradeOf(known)
}

function withNulls(row: Row): Row {
  return Object.fromEntries(Object.entries(row).map(([key, value]) => [key, value ?? null]))
}
