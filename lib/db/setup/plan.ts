/**
 * Care plans: heads, stages in the order of care, gates; every number with its mark.
 * Promise: stages are numbered by the order of care whatever order they came in, the last one ends with release, and
 * a plan without a stage is kept but never used. Writes run inside an entry and over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { orderOfCare } from '#lib/domain/care-plan.ts'
import type { GateValues, PlanHead, StageValues } from '#lib/domain/care-plan-form.ts'
import { gateOfRow, headOfRow, rowOfGate, rowOfStage, stageOfRow } from '#lib/domain/care-plan-row.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type PlanRow = PlanHead & {
  readonly id: string
  readonly conditionName: string
  readonly stages: number
  readonly isActive: boolean
}
export type GateDetail = GateValues & { readonly id: number }
export type PlanDetail = Omit<PlanRow, 'stages'> & {
  readonly version: number
  readonly stages: readonly StageValues[]
  readonly gates: readonly GateDetail[]
}
export type PlanVersion = { readonly id: string; readonly version: number }

/** One page of the plans, of one condition if asked. */
export async function listPlanRows(
  _grant: Grant<'setup.read'>,
  asked: { readonly condition: string | undefined; readonly skip: number; readonly take: number },
): Promise<{ readonly rows: readonly PlanRow[]; readonly total: number }> {
  const where = asked.condition === undefined ? {} : { conditionSlug: asked.condition }
  const [rows, total] = await Promise.all([
    db().carePlan.findMany({
      where,
      skip: asked.skip,
      take: asked.take,
      include: {
        condition: { select: { name: true } },
        _count: { select: { carePlanStageByPlanId: true } },
      },
      orderBy: [{ condition: { name: 'asc' } }, { planGroupSlug: 'asc' }, { severity: 'asc' }, { id: 'asc' }],
    }),
    db().carePlan.count({ where }),
  ])
  return {
    total,
    rows: rows.map(row => ({
      ...headOfRow(row),
      id: row.id,
      conditionName: row.condition.name,
      stages: row._count.carePlanStageByPlanId,
      isActive: row.isActive,
    })),
  }
}

export async function getPlanDetail(_grant: Grant<'setup.read'>, id: string): Promise<PlanDetail> {
  const row = await db().carePlan.findUnique({
    where: { id },
    include: {
      condition: { select: { name: true } },
      carePlanStageByPlanId: { orderBy: { stageNo: 'asc' } },
      carePlanGateByPlanId: { orderBy: { id: 'asc' } },
    },
  })
  if (row === null) throw new Failure('not-found')
  const gates = row.carePlanGateByPlanId.map(gate => ({ id: gate.id, ...gateOfRow(gate) }))
  return {
    ...headOfRow(row),
    id: row.id,
    conditionName: row.condition.name,
    isActive: row.isActive,
    version: row.version,
    stages: row.carePlanStageByPlanId.map(stageOfRow),
    gates: gates.sort((a, b) => orderOfCare(a.stage) - orderOfCare(b.stage) || a.id - b.id),
  }
}

export async function insertPlan({ tx }: EntryTx, id: string, head: PlanHead): Promise<void> {
  await tx.carePlan.create({
    data: {
      id,
      conditionSlug: head.condition,
      planGroupSlug: head.planGroup,
      severity: head.severity,
      treatment: head.treatment,
    },
  })
}

/** Raises the plan's version, switching it on or off where asked. */
export async function touchPlan(
  { tx }: EntryTx,
  { id, version }: PlanVersion,
  change: { readonly isActive?: boolean } = {},
): Promise<void> {
  const written = await tx.carePlan.updateMany({
    where: { id, version },
    data: { ...change, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.carePlan.findUnique({ where: { id }, select: { version: true } }))
}

/** The stages of a plan as they stand inside the entry. */
export async function listStages({ tx }: EntryTx, planId: string): Promise<StageValues[]> {
  const rows = await tx.carePlanStage.findMany({ where: { planId }, orderBy: { stageNo: 'asc' } })
  return rows.map(stageOfRow)
}

/** Writes all stages of a plan, numbered by the order of care. */
export async function writeStages(
  { tx }: EntryTx,
  planId: string,
  stages: readonly StageValues[],
): Promise<void> {
  const inOrder = [...stages].sort((a, b) => orderOfCare(a.stage) - orderOfCare(b.stage))
  await tx.carePlanStage.deleteMany({ where: { planId } })
  await tx.carePlanStage.createMany({
    data: inOrder.map((stage, at) => ({
      ...rowOfStage(stage),
      planId,
      stageNo: at + 1,
      goesOnMeans: at === inOrder.length - 1 ? 'released' : 'next stage',
    })),
  })
}

/** Whether gates or checks of the plan belong to a stage. */
export async function hasGates({ tx }: EntryTx, planId: string, stage: CareStage): Promise<boolean> {
  return (await tx.carePlanGate.count({ where: { planId, stage } })) > 0
}

export async function findGate(
  { tx }: EntryTx,
  planId: string,
  gateId: number,
): Promise<GateValues | undefined> {
  const row = await tx.carePlanGate.findFirst({ where: { id: gateId, planId } })
  return row === null ? undefined : gateOfRow(row)
}

export async function writeGate(
  { tx }: EntryTx,
  planId: string,
  gateId: number | undefined,
  gate: GateValues,
): Promise<void> {
  const data = { ...rowOfGate(gate), planId }
  if (gateId === undefined) await tx.carePlanGate.create({ data })
  else await tx.carePlanGate.updateMany({ where: { id: gateId, planId }, data })
}

/** Takes a gate out of the plan; checks that came from it stay with their animals. */
export async function removeGate({ tx }: EntryTx, planId: string, gateId: number): Promise<void> {
  const done = await tx.carePlanGate.deleteMany({ where: { id: gateId, planId } })
  if (done.count === 0) throw new Failure('not-found')
}
