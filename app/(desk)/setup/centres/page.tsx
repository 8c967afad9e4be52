import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { listCentres } from '#lib/service/setup/centre.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { nightDoorWords, SETUP } from '#lib/words/setup.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.centres }

export default async function CentresPage() {
  const [actor, { now }] = await Promise.all([requireActor(), currentDay()])
  const rows = await load(listCentres(actor, now))
  const on = rows.filter(row => row.isActive).length
  return (
    <SetupFrame noun="centres" sentence={listAnswer(on, rows.length - on, 'centre', 'centres')}>
      <SetupList
        head={SETUP.centres}
        several="centres"
        rows={rows}
        keyOf={row => String(row.id)}
        add={
          may(actor, 'setup.housing')
            ? { href: paths.setupNew('centres'), text: addWords('a centre') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('centres', row.id)}>{row.name}</a>,
          },
          { key: 'night', head: SETUP_PAGE.night, cell: row => nightDoorWords(row.nightDoor) },
          { key: 'enclosures', head: SETUP_PAGE.enclosures, right: true, cell: row => row.enclosures },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive, row.stop) },
        ]}
      />
    </SetupFrame>
  )
}
