import type { Metadata } from 'next'
import { Button } from '#app/_ui/button.tsx'
import { SelectField } from '#app/_ui/field.tsx'
import { Pagination } from '#app/_ui/table.tsx'
import { may } from '#lib/authz/demand.ts'
import { reviewState } from '#lib/domain/review.ts'
import { listSpecies } from '#lib/service/setup/species.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { listSpan, pageLinks, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { reviewWords, SPECIES_PAGE } from '#lib/words/setup-knowledge.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.species }

export default async function SpeciesListPage({ searchParams }: PageProps<'/setup/species'>) {
  const [actor, { today }, query] = await Promise.all([requireActor(), currentDay(), searchParams])
  const group = pageWord(query['group'])
  const span = listSpan(query['page'])
  const { rows, total, groups } = await load(listSpecies(actor, { group, ...span }))
  return (
    <SetupFrame noun="species" sentence={listAnswer(total, 0, 'species', 'species')}>
      <form className="filter" action={paths.setupList('species')}>
        <SelectField
          name="group"
          label={SPECIES_PAGE.group}
          none={SETUP_PAGE.all}
          options={groups.map(one => ({ value: one.id, text: one.name }))}
          defaultValue={group ?? ''}
        />
        <Button>{SETUP_PAGE.filter}</Button>
      </form>
      <SetupList
        head={SETUP.species}
        several="species"
        rows={rows}
        keyOf={row => row.slug}
        add={
          may(actor, 'setup.knowledge')
            ? { href: paths.setupNew('species'), text: addWords('a species') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('species', row.slug)}>{row.commonName}</a>,
          },
          { key: 'group', head: SPECIES_PAGE.group, cell: row => row.group },
          {
            key: 'company',
            head: SPECIES_PAGE.company,
            cell: row => <a href={paths.setupItem('companies', row.company)}>{row.company}</a>,
          },
          { key: 'licences', head: SPECIES_PAGE.licences, right: true, cell: row => row.licences },
          {
            key: 'review',
            head: SETUP_PAGE.review,
            cell: row => reviewWords(reviewState(row.reviewedOn, today), row.reviewedOn),
          },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
      <Pagination
        {...pageLinks(span, total, page => paths.setupList('species', { group, page: String(page) }))}
        noun="species"
      />
    </SetupFrame>
  )
}
