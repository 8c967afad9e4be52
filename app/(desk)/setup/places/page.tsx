import type { Metadata } from 'next'
import { Actions, Button, ButtonLink } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Pagination } from '#app/_ui/table.tsx'
import { may } from '#lib/authz/demand.ts'
import { listPlaces } from '#lib/service/setup/place.ts'
import { load } from '#lib/web/load.ts'
import { listSpan, pageLinks, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { PLACE_PAGE, placeKindWords } from '#lib/words/setup-place.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.places }

export default async function PlacesPage({ searchParams }: PageProps<'/setup/places'>) {
  const [actor, query] = await Promise.all([requireActor(), searchParams])
  const letters = pageWord(query['letters'])?.trim() ?? ''
  const span = listSpan(query['page'])
  const { rows, total } = await load(listPlaces(actor, { letters, ...span }))
  const mayChange = may(actor, 'setup.places')
  return (
    <SetupFrame
      noun="places"
      sentence={listAnswer(total, 0, 'place', 'places')}
      kept={pageWord(query['kept'])}
    >
      <form className="filter" action={paths.setupList('places')}>
        <TextField name="letters" label={PLACE_PAGE.letters} autoComplete="off" defaultValue={letters} />
        <Button>{PLACE_PAGE.look}</Button>
      </form>
      {rows.length === 0 && letters !== '' ? (
        <EmptyState sentence={PLACE_PAGE.nobody} coming={PLACE_PAGE.nobodyComing} />
      ) : (
        <SetupList
          head={SETUP.places}
          several="places"
          rows={rows}
          keyOf={row => String(row.id)}
          add={mayChange ? { href: paths.setupNew('places'), text: addWords('a place') } : undefined}
          columns={[
            {
              key: 'name',
              head: SETUP_PAGE.name,
              isRowHead: true,
              cell: row => <a href={paths.setupItem('places', row.id)}>{row.name}</a>,
            },
            { key: 'kind', head: PLACE_PAGE.kind, cell: row => placeKindWords(row.kind) },
            { key: 'also', head: PLACE_PAGE.also, cell: row => row.alsoCalled.join(', ') },
            {
              key: 'where',
              head: PLACE_PAGE.where,
              cell: row => `${row.latitude.toFixed(4)}, ${row.longitude.toFixed(4)}`,
            },
            { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
          ]}
        />
      )}
      <Pagination
        {...pageLinks(span, total, page => paths.setupList('places', { letters, page: String(page) }))}
        noun="places"
      />
      <div className="list-do below">
        <Actions>
          {mayChange && <ButtonLink href={paths.setupImport()}>{PLACE_PAGE.importing}</ButtonLink>}
          {may(actor, 'export.read') && (
            <ButtonLink weight="plain" href={paths.gazetteerCsv()}>
              {PLACE_PAGE.csv}
            </ButtonLink>
          )}
        </Actions>
      </div>
    </SetupFrame>
  )
}
