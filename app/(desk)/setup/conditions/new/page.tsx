import type { Metadata } from 'next'
import { newKnowledgeForm } from '#lib/service/setup/company.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { conditionParts } from '../_parts/condition-parts.ts'
import { addConditionAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a condition') }

export default async function NewConditionPage() {
  await load(newKnowledgeForm(await requireActor()))
  return (
    <SetupFrame noun="conditions" sentence={addWords('a condition')}>
      <SetupForm
        action={addConditionAction}
        parts={conditionParts(undefined)}
        submit={addWords('this condition')}
      />
    </SetupFrame>
  )
}
