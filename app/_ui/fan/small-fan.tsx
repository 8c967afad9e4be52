import { FAN_WORDS, tightWords } from '#lib/words/fan.ts'
import { svgPoints } from '../ribbon/geometry.ts'
import type { FanData } from './fan-data.ts'
import { fanOf, worstOf } from './geometry.ts'

/** 34 px high: the 8-in-10 band, the middle, the places; what passes them is filled. Words must stand beside it. */
export function SmallFan({ data }: { readonly data: FanData }) {
  const fan = fanOf({ ...data, past: [] })
  return (
    <span className="fan-small" aria-hidden="true">
      <svg
        aria-hidden="true"
        focusable="false"
        preserveAspectRatio="none"
        viewBox={`0 0 ${fan.days} ${fan.top}`}
      >
        <polygon className="fan-outer" points={svgPoints(fan.outer)} />
        {fan.over.length > 0 && <polygon className="fan-filled" points={svgPoints(fan.over)} />}
        <polyline className="fan-median" points={svgPoints(fan.median)} />
        <polyline className="fan-capacity" points={svgPoints(fan.capacity)} />
      </svg>
    </span>
  )
}

export type FanCell = { readonly href: string; readonly isHere?: boolean; readonly data: FanData }
export type FanIndexProps = {
  readonly caption: string
  /** Housing classes. */
  readonly columns: readonly string[]
  readonly rows: readonly { readonly centre: string; readonly cells: readonly (FanCell | undefined)[] }[]
  readonly tightFrom: number
}

/** One small fan for each centre and housing class; a figure only where it is tight. */
export function FanIndex({ caption, columns, rows, tightFrom }: FanIndexProps) {
  return (
    <table className="idx">
      <caption className="vh">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{FAN_WORDS.centre}</th>
          {columns.map(column => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(row => (
          <tr key={row.centre}>
            <th scope="row">{row.centre}</th>
            {columns.map((column, i) => (
              <IndexCell key={column} column={column} cell={row.cells[i]} tightFrom={tightFrom} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

type IndexCellProps = { column: string; cell: FanCell | undefined; tightFrom: number }

function IndexCell({ column, cell, tightFrom }: IndexCellProps) {
  if (cell === undefined) return <td className="none" />
  const worst = worstOf(cell.data, tightFrom)
  const words = worst === undefined ? undefined : tightWords(worst.chance, worst.day)
  const tone = worst === undefined ? 'quiet' : worst.chance >= 0.35 ? 'grave' : 'watch'
  return (
    <td className={cell.isHere === true ? 'here' : undefined} data-label={column}>
      <a href={cell.href} aria-current={cell.isHere === true ? 'true' : undefined}>
        <SmallFan data={cell.data} />
        {words === undefined ? (
          <span className={tone}>{FAN_WORDS.room}</span>
        ) : (
          <span>
            <b className={tone}>{words.chance}</b> {words.day}
          </span>
        )}
      </a>
    </td>
  )
}
