import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { reviewState } from '#lib/domain/review.ts'
import { listGroups } from '#lib/service/setup/group.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { appliesWords, GROUP_PAGE, reviewWords } from '#lib/words/setup-knowledge.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.groups }

export default async function GroupsPage() {
  const [actor, { today }] = await Promise.all([requireActor(), currentDay()])
  const rows = await load(listGroups(actor))
  const off = rows.filter(row => !row.isActive).length
  return (
    <SetupFrame
      noun="groups"
      sentence={listAnswer(rows.length - off, off, 'group of species', 'groups of species')}
    >
      <SetupList
        head={SETUP.groups}
        several="groups"
        rows={rows}
        keyOf={row => row.slug}
        add={
          may(actor, 'setup.knowledge')
            ? { href: paths.setupNew('groups'), text: addWords('a group of species') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('groups', row.slug)}>{row.name}</a>,
          },
          {
            key: 'class',
            head: GROUP_PAGE.class,
            cell: row => appliesWords(row.class),
          },
          { key: 'species', head: GROUP_PAGE.species, right: true, cell: row => row.species },
          { key: 'temperament', head: GROUP_PAGE.temperament, cell: row => row.temperament },
          {
            key: 'review',
            head: GROUP_PAGE.review,
            cell: row => reviewWords(reviewState(row.reviewedOn, today), row.reviewedOn),
          },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
    </SetupFrame>
  )
}
