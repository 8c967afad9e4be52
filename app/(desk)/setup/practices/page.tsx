import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { listPractices } from '#lib/service/setup/practice.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { PRACTICE_FORM } from '#lib/words/setup-form.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.practices }

export default async function PracticesPage() {
  const actor = await requireActor()
  const rows = await load(listPractices(actor))
  const on = rows.filter(row => row.isActive).length
  return (
    <SetupFrame noun="practices" sentence={listAnswer(on, rows.length - on, 'practice', 'practices')}>
      <SetupList
        head={SETUP.practices}
        several="practices"
        rows={rows}
        keyOf={row => String(row.id)}
        add={
          may(actor, 'setup.practices')
            ? { href: paths.setupNew('practices'), text: addWords('a practice') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('practices', row.id)}>{row.name}</a>,
          },
          { key: 'phone', head: SETUP_PAGE.phone, cell: row => row.phone },
          {
            key: 'night',
            head: SETUP_PAGE.night,
            cell: row => (row.hasNightCover ? PRACTICE_FORM.nightYes : PRACTICE_FORM.nightNo),
          },
          { key: 'sees', head: PRACTICE_FORM.groups, right: true, cell: row => row.sees.length },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
    </SetupFrame>
  )
}
