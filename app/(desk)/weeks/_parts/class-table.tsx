import { AsTable, DataTable } from '#app/_ui/table.tsx'
import type { ClassShown } from '#lib/service/weeks-view.ts'
import { paths } from '#lib/web/paths.ts'
import { perCent } from '#lib/words/chance.ts'
import { weekdayDate } from '#lib/words/dates.ts'
import { housingHead, WEEKS, WEEKS_HEADS } from '#lib/words/weeks.ts'

type Props = { readonly classes: readonly ClassShown[]; readonly days: number }

/** Every class in figures, the worst first. */
export function ClassTable({ classes, days }: Props) {
  return (
    <AsTable label={WEEKS.asTable}>
      <DataTable
        caption={WEEKS.classes}
        hideCaption
        rows={classes.toSorted((a, b) => b.worst.chance - a.worst.chance)}
        keyOf={row => row.poolId}
        columns={[
          {
            key: 'class',
            head: WEEKS_HEADS.housing,
            isRowHead: true,
            cell: row => (
              <a href={paths.weeksOfCentre(row.centreId, { housing: row.housing, days })}>
                {housingHead(row.housing)}
              </a>
            ),
          },
          { key: 'centre', head: WEEKS_HEADS.centre, cell: row => row.centre },
          { key: 'tonight', head: WEEKS_HEADS.tonight, right: true, cell: row => row.tonight },
          { key: 'day', head: WEEKS_HEADS.worstDay, cell: row => weekdayDate(row.worst.day) },
          { key: 'worst', head: WEEKS_HEADS.worst, right: true, cell: row => perCent(row.worst.chance) },
          { key: 'tight', head: WEEKS_HEADS.tight, right: true, cell: row => row.tightDays },
          {
            key: 'short',
            head: WEEKS_HEADS.short,
            right: true,
            cell: row => row.placeDaysShort.toFixed(2),
          },
        ]}
      />
    </AsTable>
  )
}
