import type { Metadata } from 'next'
import { newKnowledgeForm } from '#lib/service/setup/company.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { companyParts } from '../_parts/company-parts.ts'
import { addCompanyAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a company') }

export default async function NewCompanyPage() {
  await load(newKnowledgeForm(await requireActor()))
  return (
    <SetupFrame noun="companies" sentence={addWords('a company')}>
      <SetupForm
        action={addCompanyAction}
        parts={companyParts(undefined)}
        submit={addWords('this company')}
      />
    </SetupFrame>
  )
}
