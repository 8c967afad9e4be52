/**
 * Setting up care plans: heads, stages, gates.
 * Promise: a plan keeps its stages in the order of care, each stage once; a changed number is ours unless another
 * source is named. Animals in care keep the copy of the plan they came with.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { listConditionChoices, listPlanGroupChoices, type Named } from '#lib/db/setup/choice.ts'
import {
  findGate,
  getPlanDetail,
  hasGates,
  insertPlan,
  listPlanRows,
  listStages,
  type PlanDetail,
  type PlanRow,
  removeGate,
  touchPlan,
  writeGate,
  writeStages,
} from '#lib/db/setup/plan.ts'
import {
  gateForm,
  planForm,
  planIdOf,
  stageForm,
  withGateMark,
  withMarks,
} from '#lib/domain/care-plan-form.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import { parse } from '#lib/domain/parse.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { Failure } from '#lib/kernel/failure.ts'

export type PlanList = {
  readonly rows: readonly PlanRow[]
  readonly total: number
  readonly conditions: readonly Named<string>[]
}

export async function listPlans(
  actor: Actor,
  asked: { readonly condition: string | undefined; readonly skip: number; readonly take: number },
): Promise<PlanList> {
  const grant = demand(actor, 'setup.read')
  const [page, conditions] = await Promise.all([listPlanRows(grant, asked), listConditionChoices(grant)])
  return { ...page, conditions }
}

export async function getPlan(actor: Actor, id: string): Promise<PlanDetail> {
  return getPlanDetail(demand(actor, 'setup.read'), id)
}

export type PlanChoices = {
  readonly conditions: readonly Named<string>[]
  readonly planGroups: readonly Named<string>[]
}

export async function newPlanForm(actor: Actor): Promise<PlanChoices> {
  const grant = demand(actor, 'setup.plans')
  const [conditions, planGroups] = await Promise.all([
    listConditionChoices(grant),
    listPlanGroupChoices(grant),
  ])
  return { conditions, planGroups }
}

export async function addPlan(actor: Actor, input: unknown, now: Date): Promise<string> {
  const grant = demand(actor, 'setup.plans')
  const head = parse(planForm, input)
  const id = planIdOf(head)
  await inEntry(
    grant,
    { now, action: 'added', subject: 'care plan', subjectId: id, columns: Object.keys(head) },
    entry => insertPlan(entry, id, head),
  )
  return id
}

export async function switchPlan(actor: Actor, id: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.plans')
  const { version, isActive } = parse(switchForm, input)
  await inEntry(
    grant,
    {
      now,
      action: isActive ? 'switched on' : 'switched off',
      subject: 'care plan',
      subjectId: id,
      columns: ['is_active'],
    },
    entry => touchPlan(entry, { id, version }, { isActive }),
  )
}

/** Changes the stage that stands under a name, or adds one where no name is given. */
export async function savePlanStage(
  actor: Actor,
  id: string,
  name: CareStage | undefined,
  input: unknown,
  now: Date,
): Promise<void> {
  demand(actor, 'setup.plans')
  const typed = parse(stageForm, input)
  const action = name === undefined ? 'stage added' : 'stage changed'
  await onPlan(actor, { id, input, action, now }, async entry => {
    const stages = await listStages(entry, id)
    const before = stages.find(stage => stage.stage === name)
    if (name !== undefined && before === undefined) throw new Failure('conflict')
    const others = stages.filter(stage => stage.stage !== name)
    if (others.some(stage => stage.stage === typed.stage)) refuse('stage-there-already', 'stage')
    if (before !== undefined && before.stage !== typed.stage) await refuseWithGates(entry, id, before.stage)
    await writeStages(entry, id, [...others, withMarks(before, typed)])
  })
}

export async function removePlanStage(
  actor: Actor,
  id: string,
  name: CareStage | undefined,
  input: unknown,
  now: Date,
): Promise<void> {
  if (name === undefined) throw new Failure('not-found')
  await onPlan(actor, { id, input, action: 'stage taken out', now }, async entry => {
    const stages = await listStages(entry, id)
    await refuseWithGates(entry, id, name)
    await writeStages(
      entry,
      id,
      stages.filter(stage => stage.stage !== name),
    )
  })
}

/** Changes a gate, or adds one where no number is given. */
export async function savePlanGate(
  actor: Actor,
  id: string,
  gateId: number | undefined,
  input: unknown,
  now: Date,
): Promise<void> {
  demand(actor, 'setup.plans')
  const typed = parse(gateForm, input)
  const action = gateId === undefined ? 'gate added' : 'gate changed'
  await onPlan(actor, { id, input, action, now }, async entry => {
    const stages = await listStages(entry, id)
    if (!stages.some(stage => stage.stage === typed.stage)) refuse('gate-without-stage', 'stage')
    const before = gateId === undefined ? undefined : await findGate(entry, id, gateId)
    if (gateId !== undefined && before === undefined) throw new Failure('not-found')
    await writeGate(entry, id, gateId, withGateMark(before, typed))
  })
}

export async function removePlanGate(
  actor: Actor,
  id: string,
  gateId: number,
  input: unknown,
  now: Date,
): Promise<void> {
  await onPlan(actor, { id, input, action: 'gate taken out', now }, entry => removeGate(entry, id, gateId))
}

type OnPlan = { readonly id: string; readonly input: unknown; readonly action: string; readonly now: Date }

/** Works on a plan over the version that was read. */
async function onPlan(
  actor: Actor,
  { id, input, action, now }: OnPlan,
  work: (entry: EntryTx) => Promise<void>,
): Promise<void> {
  const grant = demand(actor, 'setup.plans')
  const { version } = parse(versionForm, input)
  await inEntry(grant, { now, action, subject: 'care plan', subjectId: id }, async entry => {
    await touchPlan(entry, { id, version })
    await work(entry)
  })
}

async function refuseWithGates(entry: EntryTx, planId: string, stage: CareStage): Promise<void> {
  if (await hasGates(entry, planId, stage)) refuse('stage-has-gates', 'stage')
}

function refuse(rule: string, field: string): never {
  throw new Failure('rule', { rule, field })
}
