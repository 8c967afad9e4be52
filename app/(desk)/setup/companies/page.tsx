import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { listCompanies } from '#lib/service/setup/company.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP } from '#lib/words/setup.ts'
import { COMPANY_PAGE } from '#lib/words/setup-knowledge.ts'
import { addWords, listAnswer } from '#lib/words/setup-page.ts'
import { preysWords } from '#lib/words/species.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.companies }

export default async function CompaniesPage() {
  const actor = await requireActor()
  const rows = await load(listCompanies(actor))
  return (
    <SetupFrame
      noun="companies"
      sentence={listAnswer(rows.length, 0, 'company', 'companies')}
      basis={COMPANY_PAGE.note}
    >
      <SetupList
        head={SETUP.companies}
        several="companies"
        rows={rows}
        keyOf={row => row.slug}
        add={
          may(actor, 'setup.knowledge')
            ? { href: paths.setupNew('companies'), text: addWords('a company') }
            : undefined
        }
        columns={[
          {
            key: 'members',
            head: COMPANY_PAGE.members,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('companies', row.slug)}>{row.members}</a>,
          },
          { key: 'side', head: COMPANY_PAGE.side, cell: row => preysWords(row.preys) },
          { key: 'species', head: COMPANY_PAGE.species, right: true, cell: row => row.species.length },
          { key: 'enclosures', head: COMPANY_PAGE.enclosures, right: true, cell: row => row.enclosures },
          { key: 'source', head: COMPANY_PAGE.source, cell: row => markWords(row.mark) },
        ]}
      />
    </SetupFrame>
  )
}
