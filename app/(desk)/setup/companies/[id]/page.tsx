import type { Metadata } from 'next'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import { may } from '#lib/authz/demand.ts'
import { getCompany, type CompanyPage as Page } from '#lib/service/setup/company.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP } from '#lib/words/setup.ts'
import { adultAloneWords, COMPANY_PAGE } from '#lib/words/setup-knowledge.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { companyParts } from '../_parts/company-parts.ts'
import { changeCompanyAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.companies }

export default async function CompanyPage({ params, searchParams }: PageProps<'/setup/companies/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const { company, stocked } = await load(getCompany(actor, decodeURIComponent(id)))
  return (
    <SetupFrame
      noun="companies"
      sentence={company.members}
      basis={markWords(company.mark)}
      kept={pageWord(kept)}
    >
      <RecordForm
        mayChange={may(actor, 'setup.knowledge')}
        action={changeCompanyAction}
        parts={companyParts(company)}
        id={company.slug}
        version={company.version}
        here={paths.setupItem('companies', company.slug)}
      />
      <SpeciesOfIt company={company} />
      <Stocked stocked={stocked} />
    </SetupFrame>
  )
}

function SpeciesOfIt({ company }: Pick<Page, 'company'>) {
  return (
    <Section id="species" head={COMPANY_PAGE.species} note={COMPANY_PAGE.speciesNote}>
      {company.species.length === 0 ? (
        <EmptyState sentence={COMPANY_PAGE.noSpecies} coming={COMPANY_PAGE.noSpeciesComing} />
      ) : (
        <ul className="lines">
          {company.species.map(one => (
            <li key={one.slug}>
              <a href={paths.setupItem('species', one.slug)}>{one.name}</a>
              {`, ${adultAloneWords(one.adultAlone)}`}
            </li>
          ))}
        </ul>
      )}
    </Section>
  )
}

function Stocked({ stocked }: Pick<Page, 'stocked'>) {
  return (
    <Section id="stocked" head={COMPANY_PAGE.stocked} note={COMPANY_PAGE.stockedNote}>
      {stocked.length === 0 ? (
        <EmptyState sentence={COMPANY_PAGE.noStocked} coming={COMPANY_PAGE.noStockedComing} />
      ) : (
        <DataTable
          caption={COMPANY_PAGE.stocked}
          hideCaption
          rows={stocked}
          keyOf={row => String(row.enclosureId)}
          columns={[
            {
              key: 'enclosure',
              head: SETUP_PAGE.name,
              isRowHead: true,
              cell: row => <a href={paths.setupItem('enclosures', row.enclosureId)}>{row.enclosure}</a>,
            },
            { key: 'centre', head: SETUP_PAGE.centre, cell: row => row.centre },
            { key: 'places', head: COMPANY_PAGE.places, right: true, cell: row => row.places },
          ]}
        />
      )}
    </Section>
  )
}
