import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { StopList } from '#lib/service/setup/stop.ts'
import { paths } from '#lib/web/paths.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { siteStateWords } from '#lib/words/setup.ts'
import { coversWords, STOP_PAGE } from '#lib/words/setup-stop.ts'

type Props = {
  readonly id: string
  readonly head: string
  readonly rows: StopList['open']
  readonly zone: string
  readonly empty: { readonly sentence: string; readonly coming: string }
  readonly strong?: boolean
}

/** States of sites as lines: where, what, whom it covers, from when, until when, why. */
export function StopTable({ id, head, rows, zone, empty, strong = false }: Props) {
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
              key: 'centre',
              head: STOP_PAGE.centre,
              isRowHead: true,
              cell: row => <a href={paths.setupItem('stops', row.id)}>{row.centre}</a>,
            },
            { key: 'state', head: STOP_PAGE.state, cell: row => siteStateWords(row.siteState) },
            { key: 'covers', head: STOP_PAGE.covers, cell: row => coversWords(row.coversClass) },
            { key: 'from', head: STOP_PAGE.from, cell: row => dayAndClock(row.startsAt, zone) },
            {
              key: 'until',
              head: STOP_PAGE.until,
              cell: row => (row.endsAt === null ? STOP_PAGE.openEnd : dayAndClock(row.endsAt, zone)),
            },
            { key: 'reason', head: STOP_PAGE.reason, cell: row => row.reason },
          ]}
        />
      )}
    </Section>
  )
}
