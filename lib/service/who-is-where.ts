/**
 * Who is where: every casualty by place, stage, days ahead and what is due; as pages and as a table for a spreadsheet.
 * Promise: filtered, ordered and paged in the database; the days ahead are those of the one forecast. A carer sees
 * only who is at, or expected at, own centres. Days are day numbers of the network's calendar.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand, type Grant, may, reaches } from '#lib/authz/demand.ts'
import { type ListRow, listCasualties } from '#lib/db/casualty-list.ts'
import { type CsvCell, csvText } from '#lib/domain/csv-text.ts'
import { type DayNumber, dateOfDay, dayOfInstant } from '#lib/domain/day.ts'
import { parse } from '#lib/domain/parse.ts'
import { type WhoIsWhereFilter, type WhoIsWhereQuery, whoIsWhereQuery } from '#lib/domain/who-is-where.ts'
import { placeWords, WHO_CSV, whoStage } from '#lib/words/who-is-where.ts'
import { readTonight, type Tonight } from './network.ts'
import { findStayAhead, lastDayById, type StayAhead } from './stay-ahead.ts'

export const PAGE_ROWS = 50
const EXPORT_ROWS_MAX = 20_000

export type WhoRow = ListRow & { readonly ahead: StayAhead | undefined }

export type WhoIsWhere = {
  readonly asked: WhoIsWhereQuery
  readonly today: DayNumber
  readonly zone: string
  readonly total: number
  readonly rows: readonly WhoRow[]
  readonly centres: readonly { readonly id: number; readonly name: string }[]
  readonly groups: readonly { readonly slug: string; readonly name: string }[]
}

/** A page of casualties, with what can be filtered by. */
export async function listWhoIsWhere(actor: Actor, query: unknown, now: Date): Promise<WhoIsWhere> {
  const grant = listGrant(actor)
  const asked = parse(whoIsWhereQuery, query)
  const tonight = await readTonight(now)
  const { total, rows } = await find(grant, tonight, asked, {
    now,
    limit: PAGE_ROWS,
    offset: (asked.page - 1) * PAGE_ROWS,
  })
  const { state, trade, today } = tonight
  return {
    asked,
    today,
    zone: state.zone,
    total,
    rows: rows.map(row => ({ ...row, ahead: findStayAhead(tonight, row.id) })),
    centres: state.centres
      .filter(({ id }) => reaches(grant.scope, { centreIds: [id] }))
      .map(({ id, name }) => ({ id, name })),
    groups: trade.groups
      .map(({ slug, name }) => ({ slug, name }))
      .sort((a, b) => a.name.localeCompare(b.name, 'en')),
  }
}

/** The same list whole, as a file. Needs the right to see and the right to export. */
export async function exportWhoIsWhere(
  actor: Actor,
  asked: WhoIsWhereFilter,
  now: Date,
): Promise<{ readonly csv: string; readonly filename: string }> {
  const grant = demand(actor, 'placement.read')
  demand(actor, 'export.read')
  const tonight = await readTonight(now)
  const { rows } = await find(grant, tonight, asked, { now, limit: EXPORT_ROWS_MAX, offset: 0 })
  const date = dateOfDay(tonight.today)
  return {
    csv: csvText(
      WHO_CSV,
      rows.map(row => cellsOf(row, tonight)),
    ),
    filename: `animals-${date}.csv`,
  }
}

/** The lists of the desk and of carers; whoever has no lists sees the cases that are hers. */
function listGrant(actor: Actor): Grant<'placement.read' | 'casualty.read'> {
  return may(actor, 'placement.read') ? demand(actor, 'placement.read') : demand(actor, 'casualty.read')
}

type Cut = { readonly now: Date; readonly limit: number; readonly offset: number }

function find(
  grant: Grant<'placement.read' | 'casualty.read'>,
  tonight: Tonight,
  asked: WhoIsWhereFilter,
  cut: Cut,
) {
  return listCasualties(grant, {
    kind: asked.show,
    centreId: asked.centre,
    group: asked.group,
    stage: asked.stage,
    text: asked.text,
    order: asked.order,
    isDescending: asked.down,
    untilById: asked.order === 'until' ? lastDayById(tonight) : new Map(),
    ...cut,
  })
}

function cellsOf(row: ListRow, tonight: Tonight): CsvCell[] {
  const { zone } = tonight.state
  const date = (at: Date | null) => (at === null ? null : dateOfDay(dayOfInstant(at, zone)))
  const until = lastDayById(tonight).get(row.id)
  return [
    row.reference,
    row.species,
    row.age,
    whoStage(row),
    placeWords(row),
    date(row.since),
    date(row.arrivedAt),
    date(row.readyAt),
    until === undefined ? null : dateOfDay(until),
    row.checkDueOn === null ? null : dateOfDay(row.checkDueOn),
    row.checkSlug,
    row.short,
  ]
}
