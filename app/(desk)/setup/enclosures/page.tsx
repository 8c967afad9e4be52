import type { Metadata } from 'next'
import { Button } from '#app/_ui/button.tsx'
import { SelectField } from '#app/_ui/field.tsx'
import { Pagination } from '#app/_ui/table.tsx'
import { may } from '#lib/authz/demand.ts'
import { listEnclosures } from '#lib/service/setup/enclosure.ts'
import { load } from '#lib/web/load.ts'
import { listSpan, pageLinks, pageWord, queryNumber } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { housingWords } from '#lib/words/care.ts'
import { SETUP } from '#lib/words/setup.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.enclosures }

export default async function EnclosuresPage({ searchParams }: PageProps<'/setup/enclosures'>) {
  const [actor, query] = await Promise.all([requireActor(), searchParams])
  const centreId = queryNumber(query['centre'])
  const span = listSpan(query['page'])
  const { rows, total, centres } = await load(listEnclosures(actor, { centreId, ...span }))
  return (
    <SetupFrame noun="enclosures" sentence={listAnswer(total, 0, 'enclosure', 'enclosures')}>
      <form className="filter" action={paths.setupList('enclosures')}>
        <SelectField
          name="centre"
          label={SETUP_PAGE.centre}
          none={SETUP_PAGE.all}
          options={centres.map(one => ({ value: String(one.id), text: one.name }))}
          defaultValue={pageWord(query['centre']) ?? ''}
        />
        <Button>{SETUP_PAGE.filter}</Button>
      </form>
      <SetupList
        head={SETUP.enclosures}
        several="enclosures"
        rows={rows}
        keyOf={row => String(row.id)}
        add={
          may(actor, 'setup.housing')
            ? { href: paths.setupNew('enclosures'), text: addWords('an enclosure') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('enclosures', row.id)}>{row.name}</a>,
          },
          { key: 'room', head: SETUP_PAGE.room, cell: row => row.room },
          { key: 'centre', head: SETUP_PAGE.centre, cell: row => row.centre },
          { key: 'kind', head: SETUP_PAGE.kind, cell: row => housingWords(row.housingType) },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
      <Pagination
        {...pageLinks(span, total, page =>
          paths.setupList('enclosures', { centre: centreId, page: String(page) }),
        )}
        noun="enclosures"
      />
    </SetupFrame>
  )
}
