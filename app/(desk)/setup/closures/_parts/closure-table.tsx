import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { ClosureList } from '#lib/service/setup/closure.ts'
import { paths } from '#lib/web/paths.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { CLOSURE_PAGE } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'

type Props = {
  readonly id: string
  readonly head: string
  readonly rows: ClosureList['open']
  readonly zone: string
  readonly empty: { readonly sentence: string; readonly coming: string }
  readonly strong?: boolean
}

/** Closures as lines: where, from when, until when, why. */
export function ClosureTable({ id, head, rows, zone, empty, strong = false }: Props) {
  return (
    <Section id={id} head={head} strong={strong}>
      {rows.length === 0 ? (
        <EmptyState {...empty} />
      ) : (
        <DataTable
          caption={head}
          hideCaption
          rows={rows}
          keyOf={row => String(row.id)}
          columns={[
            {
              key: 'where',
              head: CLOSURE_PAGE.where,
              isRowHead: true,
              cell: row => (
                <a href={paths.setupItem('closures', row.id)}>{`${row.enclosure}, ${row.room}`}</a>
              ),
            },
            { key: 'centre', head: SETUP_PAGE.centre, cell: row => row.centre },
            { key: 'from', head: CLOSURE_PAGE.from, cell: row => dayAndClock(row.startsAt, zone) },
            {
              key: 'until',
              head: CLOSURE_PAGE.until,
              cell: row => {
                const end = row.liftedAt ?? row.endsAt
                return end === null ? CLOSURE_PAGE.openEnd : dayAndClock(end, zone)
              },
            },
            { key: 'reason', head: CLOSURE_PAGE.reason, cell: row => row.reason },
          ]}
        />
      )}
    </Section>
  )
}
