import type { Metadata } from 'next'
import { newKnowledgeForm } from '#lib/service/setup/company.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { ruleParts } from '../_parts/rule-parts.ts'
import { addRuleAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a rule') }

export default async function NewRulePage() {
  await load(newKnowledgeForm(await requireActor()))
  return (
    <SetupFrame noun="rules" sentence={addWords('a rule')}>
      <SetupForm action={addRuleAction} parts={ruleParts(undefined)} submit={addWords('this rule')} />
    </SetupFrame>
  )
}
