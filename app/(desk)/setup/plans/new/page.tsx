import type { Metadata } from 'next'
import { SEVERITIES, TREATMENTS } from '#lib/domain/care-plan.ts'
import { planForm } from '#lib/domain/care-plan-form.ts'
import { newPlanForm } from '#lib/service/setup/plan.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords, SETUP_PAGE } from '#lib/words/setup-page.ts'
import { PLAN_PAGE, severityWords, treatmentWords } from '#lib/words/setup-plan.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { type Part, select } from '../../_parts/spec.ts'
import { addPlanAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a care plan') }

export default async function NewPlanPage() {
  const { conditions, planGroups } = await load(newPlanForm(await requireActor()))
  const { condition, planGroup, severity, treatment } = planForm.shape
  const named = (all: readonly { readonly id: string; readonly name: string }[]) =>
    all.map(one => ({ value: one.id, text: one.name }))
  const part: Part = {
    id: 'plan',
    head: PLAN_PAGE.condition,
    note: PLAN_PAGE.noStagesComing,
    fields: [
      select('condition', condition, undefined, named(conditions), SETUP_PAGE.choose),
      select('planGroup', planGroup, undefined, named(planGroups), SETUP_PAGE.choose),
      select(
        'severity',
        severity,
        'any',
        SEVERITIES.map(one => ({ value: one, text: severityWords(one) })),
      ),
      select(
        'treatment',
        treatment,
        'none',
        TREATMENTS.map(one => ({ value: one, text: treatmentWords(one) })),
      ),
    ],
  }
  return (
    <SetupFrame noun="plans" sentence={addWords('a care plan')}>
      <SetupForm action={addPlanAction} parts={[part]} submit={addWords('this care plan')} />
    </SetupFrame>
  )
}
