import type { Metadata } from 'next'
import { Button } from '#app/_ui/button.tsx'
import { SelectField } from '#app/_ui/field.tsx'
import { Pagination } from '#app/_ui/table.tsx'
import { may } from '#lib/authz/demand.ts'
import { listPlans } from '#lib/service/setup/plan.ts'
import { load } from '#lib/web/load.ts'
import { listSpan, pageLinks, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { PLAN_PAGE, severityWords, treatmentWords } from '#lib/words/setup-plan.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.plans }

export default async function PlansPage({ searchParams }: PageProps<'/setup/plans'>) {
  const [actor, query] = await Promise.all([requireActor(), searchParams])
  const condition = pageWord(query['condition'])
  const span = listSpan(query['page'])
  const { rows, total, conditions } = await load(listPlans(actor, { condition, ...span }))
  return (
    <SetupFrame noun="plans" sentence={listAnswer(total, 0, 'care plan', 'care plans')}>
      <form className="filter" action={paths.setupList('plans')}>
        <SelectField
          name="condition"
          label={PLAN_PAGE.condition}
          none={SETUP_PAGE.all}
          options={conditions.map(one => ({ value: one.id, text: one.name }))}
          defaultValue={condition ?? ''}
        />
        <Button>{SETUP_PAGE.filter}</Button>
      </form>
      <SetupList
        head={SETUP.plans}
        several="care plans"
        rows={rows}
        keyOf={row => row.id}
        add={
          may(actor, 'setup.plans')
            ? { href: paths.setupNew('plans'), text: addWords('a care plan') }
            : undefined
        }
        columns={[
          {
            key: 'condition',
            head: PLAN_PAGE.condition,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('plans', row.id)}>{row.conditionName}</a>,
          },
          { key: 'animals', head: PLAN_PAGE.animals, cell: row => row.planGroup },
          { key: 'severity', head: PLAN_PAGE.howBad, cell: row => severityWords(row.severity) },
          { key: 'treatment', head: PLAN_PAGE.treatment, cell: row => treatmentWords(row.treatment) },
          { key: 'stages', head: PLAN_PAGE.stages, right: true, cell: row => row.stages },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
      <Pagination
        {...pageLinks(span, total, page => paths.setupList('plans', { condition, page: String(page) }))}
        noun="care plans"
      />
    </SetupFrame>
  )
}
