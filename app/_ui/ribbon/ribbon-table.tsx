import { weekdayDate } from '#lib/words/dates.ts'
import { aboutDate, checkState, eightInTen, RIBBON_WORDS } from '#lib/words/ribbon.ts'
import { ChanceWord } from '../chance.tsx'
import { DataTable } from '../table.tsx'
import type { RibbonData } from './ribbon-data.ts'

/** The stay stage by stage, then its checks: what the picture says, in figures. */
export function RibbonTable({ data }: { readonly data: RibbonData }) {
  const rows = data.stages.map((stage, index) => ({ ...stage, index, isPast: stage.end.q90 < data.todayDay }))
  return (
    <>
      <DataTable
        caption={RIBBON_WORDS.ifItLives}
        rows={rows}
        keyOf={row => String(row.index)}
        columns={[
          { key: 'stage', head: RIBBON_WORDS.stage, isRowHead: true, cell: row => row.stage },
          {
            key: 'place',
            head: RIBBON_WORDS.place,
            cell: row => (row.place === undefined ? row.centre : `${row.centre}, ${row.place}`),
          },
          { key: 'end', head: RIBBON_WORDS.likelyEnd, cell: row => aboutDate(row.end.median, row.isPast) },
          {
            key: 'range',
            head: RIBBON_WORDS.eightInTen,
            cell: row => (row.isPast ? RIBBON_WORDS.past : eightInTen(row.end.q10, row.end.q90)),
          },
          {
            key: 'chance',
            head: RIBBON_WORDS.chance,
            cell: row => (row.chance === undefined ? null : <ChanceWord chance={row.chance} />),
          },
        ]}
      />
      {data.checks.length > 0 && (
        <DataTable
          caption={RIBBON_WORDS.checks}
          rows={data.checks}
          keyOf={check => `${check.day}-${check.text}`}
          columns={[
            { key: 'what', head: RIBBON_WORDS.what, isRowHead: true, cell: check => check.text },
            { key: 'when', head: RIBBON_WORDS.when, cell: check => weekdayDate(check.day) },
            { key: 'how', head: RIBBON_WORDS.how, cell: check => checkState(check.kind) },
          ]}
        />
      )}
    </>
  )
}
