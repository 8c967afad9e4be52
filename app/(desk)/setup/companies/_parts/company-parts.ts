import { type Company, companyFields, SIDES } from '#lib/domain/knowledge-form.ts'
import { COMPANY_PAGE } from '#lib/words/setup-knowledge.ts'
import { preysWords } from '#lib/words/species.ts'
import { type FieldSpec, type Part, select, text } from '../../_parts/spec.ts'

/** What is asked about a company; a new one is also given its key. */
export function companyParts(company: Company | undefined): Part[] {
  const { slug, members, preys, mark } = companyFields
  const key: FieldSpec[] = company === undefined ? [text('slug', slug, '')] : []
  return [
    {
      id: 'company',
      head: COMPANY_PAGE.head,
      note: COMPANY_PAGE.note,
      fields: [
        ...key,
        text('members', members, company?.members),
        select(
          'preys',
          preys,
          company?.preys,
          SIDES.map(side => ({ value: side, text: preysWords(side) })),
          COMPANY_PAGE.noSide,
        ),
        text('mark', mark, company?.mark ?? ''),
      ],
    },
  ]
}
