import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { meanEventSize } from '#lib/domain/arrivals.ts'
import { listArrivals } from '#lib/service/setup/arrivals.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { arrivalsIdOf } from '#lib/web/setup-form.ts'
import { MONTHS } from '#lib/words/dates.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP } from '#lib/words/setup.ts'
import { ARRIVALS_FORM } from '#lib/words/setup-form.ts'
import { addWords, animalsAnswer, SETUP_PAGE } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.arrivals }

export default async function ArrivalsPage() {
  const actor = await requireActor()
  const rows = await load(listArrivals(actor))
  const animals = rows.reduce((sum, row) => sum + row.animalsPerYear, 0)
  return (
    <SetupFrame noun="arrivals" sentence={animalsAnswer(animals, rows.length)}>
      <SetupList
        head={SETUP.arrivals}
        several="arrivals"
        rows={rows}
        keyOf={arrivalsIdOf}
        add={
          may(actor, 'setup.arrivals')
            ? { href: paths.setupNew('arrivals'), text: addWords('a line') }
            : undefined
        }
        columns={[
          {
            key: 'group',
            head: ARRIVALS_FORM.group,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('arrivals', arrivalsIdOf(row))}>{row.groupName}</a>,
          },
          { key: 'centre', head: SETUP_PAGE.centre, cell: row => row.centre },
          { key: 'year', head: ARRIVALS_FORM.perYear, right: true, cell: row => row.animalsPerYear },
          {
            key: 'size',
            head: ARRIVALS_FORM.atOnce,
            right: true,
            cell: row => meanEventSize(row.eventSizes).toFixed(1),
          },
          {
            key: 'month',
            head: ARRIVALS_FORM.busiest,
            cell: row => MONTHS[row.monthShares.indexOf(Math.max(...row.monthShares))],
          },
          { key: 'mark', head: ARRIVALS_FORM.mark, cell: row => markWords(row.mark) },
        ]}
      />
    </SetupFrame>
  )
}
