import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { listPeople } from '#lib/service/setup/person.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { heldRoleWords, PERSON_FORM } from '#lib/words/setup-form.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.people }

export default async function PeoplePage() {
  const actor = await requireActor()
  const rows = await load(listPeople(actor))
  const on = rows.filter(row => row.isActive).length
  return (
    <SetupFrame noun="people" sentence={listAnswer(on, rows.length - on, 'person', 'people')}>
      <SetupList
        head={SETUP.people}
        several="people"
        rows={rows}
        keyOf={row => String(row.id)}
        add={
          may(actor, 'people.change')
            ? { href: paths.setupNew('people'), text: addWords('a person') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('people', row.id)}>{row.name}</a>,
          },
          {
            key: 'roles',
            head: PERSON_FORM.role,
            cell: row => row.roles.map(held => heldRoleWords(held.role, held.place)).join('; '),
          },
          { key: 'email', head: PERSON_FORM.email, cell: row => row.email },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
    </SetupFrame>
  )
}
