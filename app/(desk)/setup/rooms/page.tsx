import type { Metadata } from 'next'
import { Section } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { listRooms } from '#lib/service/setup/room.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { roomKindWords, SETUP } from '#lib/words/setup.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { WALK_PAGE } from '#lib/words/setup-walk.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.rooms }

export default async function RoomsPage() {
  const actor = await requireActor()
  const rows = await load(listRooms(actor))
  const on = rows.filter(row => row.isActive).length
  const centres = [...new Map(rows.map(row => [row.centreId, row.centre]))]
  return (
    <SetupFrame noun="rooms" sentence={listAnswer(on, rows.length - on, 'room', 'rooms')}>
      <SetupList
        head={SETUP.rooms}
        several="rooms"
        rows={rows}
        keyOf={row => String(row.id)}
        add={
          may(actor, 'setup.housing')
            ? { href: paths.setupNew('rooms'), text: addWords('a room') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('rooms', row.id)}>{row.name}</a>,
          },
          { key: 'centre', head: SETUP_PAGE.centre, cell: row => row.centre },
          { key: 'kind', head: SETUP_PAGE.kind, cell: row => roomKindWords(row.kind) },
          { key: 'enclosures', head: SETUP_PAGE.enclosures, right: true, cell: row => row.enclosures },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
      <Section id="walk" head={WALK_PAGE.links} note={WALK_PAGE.basis}>
        <ul className="lines">
          {centres.map(([id, name]) => (
            <li key={id}>
              <a href={paths.setupWalk(id)}>{name}</a>
            </li>
          ))}
        </ul>
      </Section>
    </SetupFrame>
  )
}
