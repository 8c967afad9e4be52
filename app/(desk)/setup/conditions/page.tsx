import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { listConditions } from '#lib/service/setup/condition.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { CONDITION_PAGE, conditionKindWords } from '#lib/words/setup-knowledge.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { urgencyName } from '#lib/words/urgency.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.conditions }

const WORDS_SHOWN = 4

export default async function ConditionsPage() {
  const actor = await requireActor()
  const rows = await load(listConditions(actor))
  const on = rows.filter(row => row.isActive).length
  return (
    <SetupFrame noun="conditions" sentence={listAnswer(on, rows.length - on, 'condition', 'conditions')}>
      <SetupList
        head={SETUP.conditions}
        several="conditions"
        rows={rows}
        keyOf={row => row.slug}
        add={
          may(actor, 'setup.knowledge')
            ? { href: paths.setupNew('conditions'), text: addWords('a condition') }
            : undefined
        }
        columns={[
          {
            key: 'name',
            head: SETUP_PAGE.name,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('conditions', row.slug)}>{row.name}</a>,
          },
          { key: 'kind', head: CONDITION_PAGE.kind, cell: row => conditionKindWords(row.kind) },
          {
            key: 'words',
            head: CONDITION_PAGE.words,
            cell: row => row.words.slice(0, WORDS_SHOWN).join('; '),
          },
          { key: 'urgency', head: CONDITION_PAGE.urgency, cell: row => urgencyName(row.defaultUrgency) },
          { key: 'plans', head: CONDITION_PAGE.plans, right: true, cell: row => row.plans },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
    </SetupFrame>
  )
}
