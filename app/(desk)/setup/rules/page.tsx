import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { RULE_KINDS } from '#lib/domain/knowledge-form.ts'
import { reviewState } from '#lib/domain/review.ts'
import { listRules } from '#lib/service/setup/rule.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { ruleIdOf } from '#lib/web/setup-form.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP } from '#lib/words/setup.ts'
import { RULE_PAGE, reviewWords, ruleKindWords, rulesAnswer } from '#lib/words/setup-knowledge.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.rules }

export default async function RulesPage() {
  const [actor, { today }] = await Promise.all([requireActor(), currentDay()])
  const rows = await load(listRules(actor))
  const overdue = rows.filter(row => reviewState(row.reviewedOn, today) === 'overdue')
  const sorted = [...overdue, ...rows.filter(row => !overdue.includes(row))]
  return (
    <SetupFrame noun="rules" sentence={rulesAnswer(rows.length, overdue.length)} basis={RULE_PAGE.note}>
      <SetupList
        head={SETUP.rules}
        several={RULE_KINDS.map(kind => ruleKindWords(kind).toLowerCase()).join(' or ')}
        rows={sorted}
        keyOf={ruleIdOf}
        add={
          may(actor, 'setup.knowledge')
            ? { href: paths.setupNew('rules'), text: addWords('a rule') }
            : undefined
        }
        columns={[
          {
            key: 'says',
            head: RULE_PAGE.says,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('rules', ruleIdOf(row))}>{row.meaning}</a>,
          },
          { key: 'kind', head: RULE_PAGE.kind, cell: row => ruleKindWords(row.kind) },
          { key: 'where', head: RULE_PAGE.where, cell: row => row.jurisdiction ?? RULE_PAGE.everywhere },
          { key: 'days', head: RULE_PAGE.days, right: true, cell: row => row.clockDays.join(', ') },
          { key: 'source', head: RULE_PAGE.source, cell: row => markWords(row.mark) },
          {
            key: 'review',
            head: RULE_PAGE.review,
            cell: row => reviewWords(reviewState(row.reviewedOn, today), row.reviewedOn),
          },
        ]}
      />
    </SetupFrame>
  )
}
