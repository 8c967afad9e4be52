import { Section } from '#app/_ui/section.tsx'
import { GATE_FORM, PLAN_PAGE, STAGE_FORM } from '#lib/words/setup-plan.ts'
import { OneButton } from '../../_parts/one-button.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { removeGateAction, removeStageAction, saveGateAction, saveStageAction } from '../actions.ts'
import { gateParts } from './gate-parts.ts'
import type { PlanDetail } from './plan-detail.ts'
import { stageParts } from './stage-parts.ts'

type Props = { readonly plan: PlanDetail; readonly here: string }

/** The form of one stage, or of a new one. */
export function StageEditor({
  plan,
  here,
  stage,
}: Props & { readonly stage: PlanDetail['stages'][number] | undefined }) {
  const hidden = { id: plan.id, version: String(plan.version), was: stage?.stage ?? '' }
  return (
    <>
      <SetupForm
        action={saveStageAction}
        parts={stageParts(stage)}
        submit={STAGE_FORM.save}
        hidden={hidden}
        here={here}
      />
      {stage !== undefined && (
        <Section id="take-out" head={PLAN_PAGE.takeOut} note={PLAN_PAGE.takeOutNote}>
          <OneButton action={removeStageAction} text={PLAN_PAGE.takeOutStage} fields={hidden} />
        </Section>
      )}
    </>
  )
}

/** The form of one check, or of a new one. */
export function GateEditor({
  plan,
  here,
  gate,
}: Props & { readonly gate: PlanDetail['gates'][number] | undefined }) {
  const hidden = {
    id: plan.id,
    version: String(plan.version),
    gateId: gate === undefined ? '' : String(gate.id),
  }
  return (
    <>
      <SetupForm
        action={saveGateAction}
        parts={gateParts(
          gate,
          plan.stages.map(stage => stage.stage),
        )}
        submit={GATE_FORM.save}
        hidden={hidden}
        here={here}
      />
      {gate !== undefined && (
        <Section id="take-out" head={PLAN_PAGE.takeOut} note={PLAN_PAGE.takeOutNote}>
          <OneButton action={removeGateAction} text={PLAN_PAGE.takeOutGate} fields={hidden} />
        </Section>
      )}
    </>
  )
}
