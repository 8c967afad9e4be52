import type { ReactNode } from 'react'
import { pageSpan, SHELL_WORDS, sortWords } from '#lib/words/shell.ts'

export type Sort = { readonly href: string; readonly now?: 'ascending' | 'descending' | undefined }

export type Column<Row> = {
  readonly key: string
  readonly head: string
  readonly cell: (row: Row) => ReactNode
  /** Figures stand right. */
  readonly right?: boolean
  /** The cell that names the row. */
  readonly isRowHead?: boolean
  /** The head is a link that puts the table in this order. */
  readonly sort?: Sort | undefined
  /** The word before the value when rows are blocks; the head unless given, '' for none. */
  readonly phoneLabel?: string
}

export type DataTableProps<Row> = {
  readonly caption: string
  /** A caption that repeats the heading is kept for screen readers only. */
  readonly hideCaption?: boolean
  readonly columns: readonly Column<Row>[]
  readonly rows: readonly Row[]
  readonly keyOf: (row: Row) => string
  /** The row that is meant by the page, on lighter ground. */
  readonly isHere?: (row: Row) => boolean
  /** A last row of totals, one cell a column. */
  readonly foot?: readonly ReactNode[]
}

/** A scan table that becomes blocks on a phone; its order is changed by links, so it works without JavaScript. */
export function DataTable<Row>(props: DataTableProps<Row>) {
  const { columns, rows, keyOf, isHere } = props
  const sortable = columns.filter(column => column.sort !== undefined)
  return (
    <>
      {sortable.length > 0 && <SortWords columns={sortable} />}
      <table className="tb stack">
        <caption className={props.hideCaption === true ? 'vh' : undefined}>{props.caption}</caption>
        <thead>
          <tr>
            {columns.map(column => (
              <Head key={column.key} column={column} />
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(row => (
            <tr key={keyOf(row)} className={isHere?.(row) === true ? 'here' : undefined}>
              {columns.map(column => (
                <Cell key={column.key} column={column}>
                  {column.cell(row)}
                </Cell>
              ))}
            </tr>
          ))}
        </tbody>
        {props.foot !== undefined && (
          <tfoot>
            <tr>
              {columns.map((column, index) => (
                <Cell key={column.key} column={column}>
                  {props.foot?.[index]}
                </Cell>
              ))}
            </tr>
          </tfoot>
        )}
      </table>
    </>
  )
}

function Head<Row>({ column }: { column: Column<Row> }) {
  return (
    <th scope="col" className={column.right === true ? 'n' : undefined} aria-sort={column.sort?.now}>
      {column.sort === undefined ? (
        column.head
      ) : (
        <a href={column.sort.href}>
          {column.head}
          <span className="vh">{sortWords(column.sort.now)}</span>
        </a>
      )}
    </th>
  )
}

/** What is more than words has a box of its own: on a phone it stands beside its label, and would part there. */
function Cell<Row>({ column, children }: { column: Column<Row>; children: ReactNode }) {
  if (column.isRowHead === true) return <th scope="row">{children}</th>
  const label = column.phoneLabel ?? column.head
  const isEmpty = children === null || children === undefined || children === ''
  const className = [column.right === true ? 'n' : '', isEmpty ? 'empty' : ''].filter(Boolean).join(' ')
  return (
    <td className={className || undefined} data-label={label === '' ? undefined : label}>
      {isEmpty || typeof children === 'string' ? children : <div>{children}</div>}
    </td>
  )
}

/** On a phone the heads are gone, so their order links stand above as words. */
function SortWords<Row>({ columns }: { columns: readonly Column<Row>[] }) {
  return (
    <p className="sort-words">
      {SHELL_WORDS.orderBy}
      {columns.map(column => (
        <a
          key={column.key}
          href={column.sort?.href}
          aria-current={column.sort?.now === undefined ? undefined : 'true'}
        >
          {column.head}
        </a>
      ))}
    </p>
  )
}

export type PaginationProps = {
  readonly from: number
  readonly to: number
  readonly total: number
  /** "animals". */
  readonly noun: string
  readonly pages: readonly { readonly number: number; readonly href: string; readonly isCurrent: boolean }[]
}

/** Which part of a list this is, and links to the others. */
export function Pagination({ from, to, total, noun, pages }: PaginationProps) {
  const at = pages.findIndex(page => page.isCurrent)
  const before = pages[at - 1]
  const after = pages[at + 1]
  return (
    <nav className="pages" aria-label={SHELL_WORDS.pages}>
      <span>{pageSpan(from, to, total, noun)}</span>
      {pages.length > 1 && (
        <>
          {before !== undefined && (
            <a href={before.href} rel="prev">
              {SHELL_WORDS.before}
            </a>
          )}
          <ol>
            {pages.map(page => (
              <li key={page.number}>
                {page.isCurrent ? (
                  <span aria-current="page">{page.number}</span>
                ) : (
                  <a href={page.href}>{page.number}</a>
                )}
              </li>
            ))}
          </ol>
          {after !== undefined && (
            <a href={after.href} rel="next">
              {SHELL_WORDS.after}
            </a>
          )}
        </>
      )}
    </nav>
  )
}

/** The table behind a picture. */
export function AsTable({ label = SHELL_WORDS.asTable, children }: { label?: string; children: ReactNode }) {
  return (
    <details className="astable">
      <summary>{label}</summary>
      <div className="inner">{children}</div>
    </details>
  )
}
