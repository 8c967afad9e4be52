/**
 * Puts the history into the database through the rules that every fact goes through.
 * Promise: all but the last fortnight in one batch with its original entry times, every constraint on, its projection
 * worked out beforehand (a test lets the database rebuild it and finds the same); the fortnight entry by entry in the
 * order in which it was made; closures of enclosures take effect in their turn.
 */
import type pg from 'pg'
import { insertRows, type Row } from '../load/bulk.ts'
import type { Moment } from './moment.ts'
import type { FactRow, Projection } from './projection.ts'

export type Closing = {
  readonly at: number
  readonly enclosureId: number
  readonly endsAt: number
  readonly reason: string
  readonly by: number
}

type Written = { readonly entryOf: Map<number, number>; readonly batched: number; readonly single: number }

/** Entry numbers by casualty: the entry each came with. */
export async function writeMoments(
  client: pg.ClientBase,
  moments: readonly Moment[],
  closings: readonly Closing[],
  singlesFrom: number,
  personAt: (centreId: number) => number,
  project: (facts: readonly FactRow[]) => Projection,
): Promise<Written> {
  const entryOf = new Map<number, number>()
  const old = moments.filter(moment => moment.at < singlesFrom)
  const recent = moments.filter(moment => moment.at >= singlesFrom)
  await writeBatch(client, old, singlesFrom, personAt, entryOf, project)
  let next = 0
  for (const moment of recent) {
    for (; next < closings.length && (closings[next]?.at ?? Infinity) <= moment.at; next++) {
      await writeClosing(client, closings[next])
    }
    await writeOne(client, moment, personAt(moment.centreId), entryOf)
  }
  for (; next < closings.length; next++) await writeClosing(client, closings[next])
  return { entryOf, batched: old.length, single: recent.length }
}

async function writeBatch(
  client: pg.ClientBase,
  moments: readonly Moment[],
  at: number,
  personAt: (centreId: number) => number,
  entryOf: Map<number, number>,
  project: (facts: readonly FactRow[]) => Projection,
): Promise<void> {
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
}

async function writeOne(
  client: pg.ClientBase,
  moment: Moment,
  by: number,
  entryOf: Map<number, number>,
): Promise<void> {
  const entry = await openEntry(client, moment.at, by)
  rememberEntry(moment, entry, entryOf)
  const facts = factRows(moment, entry)
  if (facts.length > 0) {
    await client.query('select record_keepings($1::jsonb, $2)', [JSON.stringify(facts), new Date(moment.at)])
  }
  await insertRows(client, 'stage_fact', markRows(moment, entry))
  await client.query('select close_entry($1)', [entry])
}

async function writeClosing(client: pg.ClientBase, closing: Closing | undefined): Promise<void> {
  if (closing === undefined) return
  const at = new Date(closing.at)
  const entry = await openEntry(client, closing.at, closing.by)
  await client.query('select close_enclosure($1, $2, $3, $4, $5, $3)', [
    entry,
    closing.enclosureId,
    at,
    new Date(closing.endsAt),
    closing.reason,
  ])
  await client.query('select close_entry($1)', [entry])
}

async function openEntry(client: pg.ClientBase, at: number, by: number): Promise<number> {
  const { rows } = await client.query<{ id: number }>(
    'insert into entry (entered_at, entered_by) values ($1, $2) returning id',
    [new Date(at), by],
  )
  const id = rows[0]?.id
  if (id === undefined) throw new RangeError('entry needs a number, got none')
  return id
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
