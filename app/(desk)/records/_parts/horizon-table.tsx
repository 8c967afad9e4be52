import { type Column, DataTable } from '#app/_ui/table.tsx'
import type { AgainstGuess, HorizonShown } from '#lib/service/judged-view.ts'
import {
  heldShort,
  JUDGED,
  laterWords,
  nearerWords,
  needsWords,
  offWords,
  thanWords,
} from '#lib/words/judged.ts'
import { nearerCell } from './verdict-words.ts'

/** A row a horizon: how much the doubt held, how far off, and against each guess who was nearer. */
export function HorizonTable({ rows }: { readonly rows: readonly HorizonShown[] }) {
  const guesses = rows[0]?.guesses ?? []
  const columns: Column<HorizonShown>[] = guesses.map(({ guess }, at) => ({
    key: guess,
    head: thanWords(guess),
    cell: row => againstWords(row.guesses[at]),
  }))
  return (
    <DataTable
      caption={JUDGED.figures}
      hideCaption
      rows={rows}
      keyOf={({ horizon }) => String(horizon)}
      columns={[
        { key: 'after', head: JUDGED.after, isRowHead: true, cell: ({ horizon }) => laterWords(horizon) },
        { key: 'held', head: JUDGED.held, cell: ({ held, heldRange }) => heldShort(held, heldRange) },
        { key: 'off', head: JUDGED.off, cell: ({ off }) => offWords(off) },
        ...columns,
        {
          key: 'nearer',
          head: JUDGED.nearer,
          cell: nearerCell,
        },
      ]}
    />
  )
}

function againstWords(against: AgainstGuess | undefined): string {
  if (against === undefined) return ''
  return against.kind === 'judged'
    ? nearerWords(against.nearer, against.range)
    : needsWords(against.needsDays)
}
