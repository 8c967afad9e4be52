import { type ColumnDef, createTable, getCoreRowModel, type Table } from '@tanstack/react-table'
import type { ReactNode } from 'react'
import { SmallRibbon } from '#app/_ui/ribbon/stay-ribbon.tsx'
import { type Column, DataTable, type PaginationProps } from '#app/_ui/table.tsx'
import { dayOfInstant } from '#lib/domain/day.ts'
import { LIST_ORDERS, type ListOrder, queryOf } from '#lib/domain/who-is-where.ts'
import { PAGE_ROWS, type WhoIsWhere, type WhoRow } from '#lib/service/who-is-where.ts'
import { paths } from '#lib/web/paths.ts'
import { dateWithYear, dayAndClock, shortDate } from '#lib/words/dates.ts'
import {
  dayInCare,
  eightInTenOut,
  enclosureWords,
  expectedWords,
  fitSince,
  headWords,
  nextCheckWords,
  outAbout,
  placeWords,
  shortWords,
  WHO,
  type WHO_HEADS,
  whoStage,
} from '#lib/words/who-is-where.ts'

const MAX_PAGE_LINKS = 9

/** The table of one page: rows, order and pages are the database's, so the model only carries them. */
export function whoTable(list: WhoIsWhere): Table<WhoRow> {
  const { asked, rows, total } = list
  const table = createTable<WhoRow>({
    data: [...rows],
    columns: columnsOf(list),
    getCoreRowModel: getCoreRowModel(),
    getRowId: row => row.reference,
    manualSorting: true,
    manualPagination: true,
    rowCount: total,
    state: {},
    onStateChange() {},
    renderFallbackValue: null,
  })
  table.setOptions(options => ({
    ...options,
    state: {
      ...table.initialState,
      sorting: [{ id: asked.order, desc: asked.down }],
      pagination: { pageIndex: asked.page - 1, pageSize: PAGE_ROWS },
    },
  }))
  return table
}

/** Each row is an animal; heads that order are links. */
export function WhoTable({ list, table }: { readonly list: WhoIsWhere; readonly table: Table<WhoRow> }) {
  const columns = table.getAllLeafColumns().map((column): Column<WhoRow> => {
    const key = column.id
    const isOrder = (LIST_ORDERS as readonly string[]).includes(key)
    const sorted = column.getIsSorted()
    return {
      key,
      head: String(column.columnDef.header),
      isRowHead: key === 'reference',
      cell: row => cellOf(table, row.reference, key),
      sort: isOrder
        ? {
            href: paths.casualties({
              ...queryOf({ ...list.asked, order: key as ListOrder, down: sorted === 'asc' }),
            }),
            now: sorted === false ? undefined : sorted === 'asc' ? 'ascending' : 'descending',
          }
        : undefined,
    }
  })
  return (
    <div className="who-table wide-on-paper">
      <DataTable
        caption={WHO.list}
        hideCaption
        rows={table.getRowModel().rows.map(row => row.original)}
        keyOf={row => row.reference}
        columns={columns}
      />
    </div>
  )
}

function cellOf(table: Table<WhoRow>, rowId: string, columnId: string): ReactNode {
  const cell = table
    .getRow(rowId)
    .getAllCells()
    .find(one => one.column.id === columnId)
  const draw = cell?.column.columnDef.cell
  return typeof draw === 'function' ? draw(cell?.getContext() as never) : null
}

/** Where this page stands among the others. */
export function whoPages(list: WhoIsWhere, table: Table<WhoRow>): PaginationProps {
  const { asked, rows, total } = list
  const count = table.getPageCount()
  const first = Math.max(1, Math.min(asked.page - (MAX_PAGE_LINKS - 1) / 2, count - MAX_PAGE_LINKS + 1))
  const numbers = Array.from({ length: Math.min(count, MAX_PAGE_LINKS) }, (_, at) => first + at)
  const from = (asked.page - 1) * PAGE_ROWS
  return {
    from: rows.length === 0 ? 0 : from + 1,
    to: from + rows.length,
    total,
    noun: WHO.noun,
    pages: numbers.map(number => ({
      number,
      href: paths.casualties({ ...queryOf(asked), page: number === 1 ? undefined : number }),
      isCurrent: number === asked.page,
    })),
  }
}

function columnsOf(list: WhoIsWhere): ColumnDef<WhoRow>[] {
  const { today, zone, asked } = list
  const day = (at: Date) => dayOfInstant(at, zone)
  const isGone = asked.show === 'gone'
  const column = (id: keyof typeof WHO_HEADS, draw: (row: WhoRow) => ReactNode): ColumnDef<WhoRow> => ({
    id,
    header: headWords(id, isGone),
    accessorFn: row => row.reference,
    cell: ({ row }) => <span>{draw(row.original)}</span>,
  })
  return [
    column('reference', row => <a href={paths.casualty(row.reference)}>{row.reference}</a>),
    column('species', row => row.species),
    column('stage', row => whoStage(row)),
    column('place', row => <Place row={row} zone={zone} />),
    column('since', row => (
      <>
        <span className="nowrap">{isGone ? dateWithYear(day(row.since)) : shortDate(day(row.since))}</span>
        {!isGone && <span className="sub">{dayInCare(day(row.arrivedAt), today)}</span>}
      </>
    )),
    ...(isGone
      ? []
      : [
          column('until', row => <Until row={row} list={list} />),
          column('ahead', row => (row.ahead === undefined ? null : <Ahead row={row} today={today} />)),
          column('check', row =>
            row.checkSlug === null || row.checkDueOn === null ? (
              WHO.noDate
            ) : (
              <span className={row.checkDueOn <= today ? 'mine' : undefined}>
                {nextCheckWords(row.checkSlug, row.checkDueOn, today)}
              </span>
            ),
          ),
        ]),
  ]
}

function Place({ row, zone }: { readonly row: WhoRow; readonly zone: string }) {
  return (
    <>
      {row.keeper === 'centre' ? enclosureWords(row) : placeWords(row)}
      {row.keeper === 'centre' && <span className="sub">{row.centre}</span>}
      {row.short !== null && <span className="must">{shortWords(row.short)}</span>}
      {row.expectedAt !== null && row.expectedIn !== null && (
        <span className="sub">{expectedWords(dayAndClock(row.expectedAt, zone), row.expectedIn)}</span>
      )}
    </>
  )
}

function Until({ row, list }: { readonly row: WhoRow; readonly list: WhoIsWhere }) {
  const last = row.ahead?.stages.at(-1)
  if (row.isLastStage && row.readyAt !== null) {
    return fitSince(dayOfInstant(row.readyAt, list.zone), list.today)
  }
  if (last === undefined) return WHO.noPlan
  return (
    <>
      <span className="nowrap">{outAbout(last.end.median, last.isEndKnown)}</span>
      <span className="sub nowrap">{eightInTenOut(last.end.q10, last.end.q90)}</span>
    </>
  )
}

function Ahead({ row, today }: { readonly row: WhoRow; readonly today: number }) {
  return row.ahead === undefined ? null : <SmallRibbon data={{ ...row.ahead, todayDay: today, checks: [] }} />
}
