import { DataTable } from '#app/_ui/table.tsx'
import type { ArrivalSaid } from '#lib/service/records.ts'
import { ARRIVALS, timesShort, timesSpan } from '#lib/words/records.ts'

/** What is said of each group's arrivals, a row a group. */
export function ArrivalTable({ arrivals }: { readonly arrivals: readonly ArrivalSaid[] }) {
  return (
    <DataTable
      caption={ARRIVALS.head}
      hideCaption
      rows={arrivals}
      keyOf={({ group }) => group}
      columns={[
        { key: 'group', head: ARRIVALS.group, isRowHead: true, cell: ({ name }) => name },
        { key: 'events', head: ARRIVALS.events, right: true, cell: ({ events }) => String(events) },
        {
          key: 'refused',
          head: ARRIVALS.refused,
          right: true,
          cell: ({ refused }) => (refused === 0 ? '' : String(refused)),
        },
        { key: 'times', head: ARRIVALS.times, right: true, cell: ({ level }) => timesShort(level.mean) },
        { key: 'within', head: ARRIVALS.within, right: true, cell: ({ level }) => timesSpan(level) },
        { key: 'weekend', head: ARRIVALS.weekend, right: true, cell: ({ weekend }) => timesShort(weekend) },
        { key: 'season', head: ARRIVALS.season, right: true, cell: ({ season }) => timesShort(season.mean) },
      ]}
    />
  )
}
