import { perCent } from '#lib/words/chance.ts'
import { weekdayDate } from '#lib/words/dates.ts'
import { FAN_WORDS, number, rangeWords } from '#lib/words/fan.ts'
import { DataTable } from '../table.tsx'
import type { FanData } from './fan-data.ts'
import { placesOn } from './geometry.ts'

/** The fan day by day, in figures. */
export function FanTable({ data }: { readonly data: FanData }) {
  const rows = data.ahead.map((day, i) => ({ ...day, day: data.todayDay + i, short: data.shortByDay[i] }))
  return (
    <DataTable
      caption={FAN_WORDS.asTable}
      hideCaption
      rows={rows}
      keyOf={row => String(row.day)}
      columns={[
        { key: 'day', head: FAN_WORDS.day, isRowHead: true, cell: row => weekdayDate(row.day) },
        { key: 'middle', head: FAN_WORDS.middleHead, right: true, cell: row => number(row.median) },
        { key: 'range', head: FAN_WORDS.rangeHead, right: true, cell: row => rangeWords(row.q10, row.q90) },
        { key: 'places', head: FAN_WORDS.placesHead, right: true, cell: row => placesOn(data, row.day) },
        {
          key: 'short',
          head: FAN_WORDS.shortHead,
          right: true,
          cell: row => (row.short === undefined ? null : perCent(row.short)),
        },
      ]}
    />
  )
}
