import { RULE_KINDS, type Rule, ruleFields } from '#lib/domain/knowledge-form.ts'
import { RULE_PAGE, ruleKindWords } from '#lib/words/setup-knowledge.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { date, type FieldSpec, type Part, said, select, text } from '../../_parts/spec.ts'

/** What is asked about a rule; a new one is also given its kind and key. */
export function ruleParts(rule: Rule | undefined): Part[] {
  const { kind, key, meaning, jurisdiction, clockDays, clockHolders, needsHolder, mark, reviewedOn } =
    ruleFields
  const kinds = RULE_KINDS.map(one => ({ value: one, text: ruleKindWords(one) }))
  const which: FieldSpec[] =
    rule === undefined ? [select('kind', kind, '', kinds, SETUP_PAGE.choose), text('key', key, '')] : []
  return [
    {
      id: 'rule',
      head: RULE_PAGE.head,
      note: RULE_PAGE.note,
      fields: [
        ...which,
        { kind: 'area', name: 'meaning', ...said(meaning), start: rule?.meaning ?? '' },
        text('jurisdiction', jurisdiction, rule?.jurisdiction),
        text('clockDays', clockDays, rule?.clockDays.join('; ')),
        text('clockHolders', clockHolders, rule?.clockHolders.join('; ')),
        select('needsHolder', needsHolder, rule?.needsHolder === true ? 'yes' : 'no', [
          { value: 'no', text: RULE_PAGE.forAll },
          { value: 'yes', text: RULE_PAGE.forHolders },
        ]),
        text('mark', mark, rule?.mark ?? ''),
        date('reviewedOn', reviewedOn, rule?.reviewedOn),
      ],
    },
  ]
}
