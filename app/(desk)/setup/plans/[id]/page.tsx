import type { Metadata } from 'next'
import { forbidden, notFound } from 'next/navigation'
import { may } from '#lib/authz/demand.ts'
import { getPlan } from '#lib/service/setup/plan.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { stageWords } from '#lib/words/care.ts'
import { SETUP } from '#lib/words/setup.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { PLAN_PAGE, planAnswer, planBasis } from '#lib/words/setup-plan.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { GateEditor, StageEditor } from '../_parts/plan-editors.tsx'
import { PlanGates, PlanStages } from '../_parts/plan-sections.tsx'
import { switchPlanAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.plans }

export default async function PlanPage({ params, searchParams }: PageProps<'/setup/plans/[id]'>) {
  const [actor, { id }, query] = await Promise.all([requireActor(), params, searchParams])
  const plan = await load(getPlan(actor, decodeURIComponent(id)))
  const mayChange = may(actor, 'setup.plans')
  const here = paths.setupItem('plans', plan.id)
  const stageName = pageWord(query['stage'])
  const gateId = pageWord(query['gate'])
  const back = <a href={here}>{PLAN_PAGE.backToPlan}</a>
  if (stageName !== undefined || gateId !== undefined) {
    if (!mayChange) forbidden()
    const stage = plan.stages.find(one => one.stage === stageName)
    const gate = plan.gates.find(one => String(one.id) === gateId)
    const isThere = [stageName, gateId].includes('new') || (stage ?? gate) !== undefined
    if (!isThere) notFound()
    const heading = stage === undefined ? planAnswer(plan) : `${stageWords(stage.stage)}: ${planAnswer(plan)}`
    return (
      <SetupFrame noun="plans" sentence={heading} basis={back}>
        {stageName !== undefined ? (
          <StageEditor plan={plan} here={here} stage={stage} />
        ) : (
          <GateEditor plan={plan} here={here} gate={gate} />
        )}
      </SetupFrame>
    )
  }
  const hrefOf = (asked: Readonly<Record<string, string>>) => paths.setupItem('plans', plan.id, asked)
  return (
    <SetupFrame
      noun="plans"
      sentence={switchedWords(planAnswer(plan), plan.isActive)}
      basis={`${planBasis(plan.stages.length, plan.gates.length)}. ${PLAN_PAGE.copies}`}
      kept={pageWord(query['kept'])}
    >
      <PlanStages plan={plan} mayChange={mayChange} hrefOf={hrefOf} />
      <PlanGates plan={plan} mayChange={mayChange} hrefOf={hrefOf} />
      {mayChange && (
        <SwitchSection
          action={switchPlanAction}
          id={plan.id}
          version={plan.version}
          isActive={plan.isActive}
        />
      )}
    </SetupFrame>
  )
}
