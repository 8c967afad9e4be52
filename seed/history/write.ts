/**
 * Puts the history into the database but for its last fortnight, which goes through the services.
 * Promise: one batch of entries with their original times and one revision each, every constraint on, its projection
 * worked out beforehand (a test lets the database rebuild it and finds the same).
 */
import type pg from 'pg'
import { insertRows, type Row } from '../load/bulk.ts'
import type { Moment } from './moment.ts'
import type { FactRow, Projection } from './projection.ts'

/** Writes the entries, settled up to an instant; gives the entry each casualty came with. */
export async function writeBatch(
  client: pg.ClientBase,
  moments: readonly Moment[],
  at: number,
  personAt: (centreId: number) => number,
  project: (facts: readonly FactRow[]) => Projection,
): Promise<Map<number, number>> {
  const entryOf = new Map<number, number>()
  const { rows } = await client.query<{ ids: number[] }>(
    `select open_history($1::timestamptz[], $2::int[], 'generated for the demonstration') as ids`,
    [
      moments.map(moment => new Date(moment.at).toISOString()),
      moments.map(moment => personAt(moment.centreId)),
    ],
  )
  const entries = moments.map((moment, nth) => ({ moment, entry: rows[0]?.ids[nth] }))
  for (const { moment, entry } of entries) rememberEntry(moment, entry, entryOf)
  const facts = entries.flatMap(({ moment, entry }) => factRows(moment, entry))
  const projection = project(facts)
  await insertRows(client, 'keeping', projection.keepings)
  await insertRows(client, 'whereabouts', projection.whereabouts)
  await insertRows(client, 'claim', projection.claims)
  await client.query('update enclosure set settled_at = $1', [new Date(at)])
  await insertRows(
    client,
    'stage_fact',
    entries.flatMap(({ moment, entry }) => markRows(moment, entry)),
  )
  // What follows is planned by what the tables hold now; the server would look only after the transaction.
  await client.query('analyze keeping, whereabouts, claim, casualty, entry, stocking')
  return entryOf
}

function rememberEntry(moment: Moment, entry: number | undefined, entryOf: Map<number, number>): void {
  if (entry === undefined) return
  for (const casualty of moment.arrived) entryOf.set(casualty.id, entry)
}

function factRows({ facts }: Moment, entry: number | undefined): FactRow[] {
  return facts.map(({ casualty, change }) => ({
    entry_id: entry,
    casualty_id: casualty.id,
    since: new Date(change.at).toISOString(),
    keeper: change.keeper,
    driver_id: change.driverId ?? null,
    centre_id: change.centreId ?? null,
    enclosure_id: change.enclosureId ?? null,
    place_no: change.placeNo ?? null,
    outcome: change.outcome ?? null,
  }))
}

function markRows({ marks }: Moment, entry: number | undefined): Row[] {
  return marks.map(({ casualty, mark }) => ({
    entry_id: entry,
    casualty_id: casualty.id,
    stage_no: mark.no,
    kind: mark.kind,
    at: new Date(mark.at).toISOString(),
  }))
}
