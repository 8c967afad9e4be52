import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { listDrivers } from '#lib/service/setup/driver.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { DRIVER_FORM } from '#lib/words/setup-form.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.drivers }

export default async function DriversPage() {
  const actor = await requireActor()
  const rows = await load(listDrivers(actor))
  const on = rows.filter(row => row.isActive).length
  return (
    <SetupFrame noun="drivers" sentence={listAnswer(on, rows.length - on, 'driver', 'drivers')}>
      <SetupList
        head={SETUP.drivers}
        several="drivers"
        rows={rows}
        keyOf={row => String(row.id)}
        add={
          may(actor, 'setup.drivers')
            ? { href: paths.setupNew('drivers'), text: addWords('a driver') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('drivers', row.id)}>{row.name}</a>,
          },
          { key: 'phone', head: SETUP_PAGE.phone, cell: row => row.phone },
          { key: 'area', head: DRIVER_FORM.area, cell: row => row.area },
          {
            key: 'night',
            head: SETUP_PAGE.night,
            cell: row => (row.drivesAtNight ? DRIVER_FORM.nightYes : DRIVER_FORM.nightNo),
          },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
    </SetupFrame>
  )
}
