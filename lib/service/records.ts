/**
 * What the network's own records say of each stage of care, and one stage in full: its curve beside the plan's.
 * Promise: of the newest learning, the one that the forecast of this moment uses; nothing here is computed again. A key that
 * is not of that learning is not found.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findProgress, type JobProgress } from '#lib/db/job-progress.ts'
import { findLearnedCurve, type LearnedCell, type LearnedCurve, readLearnedPage } from '#lib/db/learned.ts'
import { type ArrivalNumbers, listArrivalNumbers } from '#lib/db/learned-arrivals.ts'
import type { CarePlan, StageMarks } from '#lib/domain/care-plan.ts'
import { combinePlans } from '#lib/domain/care-plan-combination.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import { saysTheSame } from '#lib/domain/estimate.ts'
import { parse } from '#lib/domain/parse.ts'
import { groupOf, type Trade } from '#lib/domain/trade.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { LEARNING } from './learning-due.ts'
import { readTrade } from './network.ts'

export type PlanOf = Pick<CarePlan, 'id' | 'planGroup' | 'severity' | 'treatment'>

/** A stage of care with what was learned of it; `conditions` by name, `plans` those that setup still has. */
export type StageSaid = LearnedCell & {
  readonly conditions: readonly string[]
  readonly plans: readonly PlanOf[]
}

export type RunShown = {
  readonly id: number
  readonly asOf: DayNumber
  readonly animals: number
  readonly modelVersion: string
}

/** `slug`: the condition's, or those of several put together. */
export type OfCondition = {
  readonly slug: string
  readonly condition: string
  readonly stages: readonly StageSaid[]
}

export type RecordsShown = {
  readonly run: RunShown
  readonly earlierAsOf: DayNumber | null
  /** Stages of which the records leave the plan out with 8 chances in 10, the farthest first. */
  readonly farthest: readonly StageSaid[]
  /** Stages with records of their own by condition, the most animals first; then those without. */
  readonly own: readonly OfCondition[]
  readonly others: readonly StageSaid[]
  /** Groups of which somebody came or was sent elsewhere, the most first. */
  readonly arrivals: readonly ArrivalSaid[]
}

/** A group's arrivals, with its name. */
export type ArrivalSaid = ArrivalNumbers & { readonly name: string }

export type RecordShown = {
  readonly run: RunShown
  readonly earlierAsOf: DayNumber | null
  readonly said: StageSaid
  readonly curve: LearnedCurve
  /** The curve about a month before, where one is kept of an animal that waits as long for its date. */
  readonly before: Float64Array | null
  /** Where the plan's figures come from; null where setup has changed or dropped them since. */
  readonly marks: StageMarks | null
}

const FARTHEST_MAX = 8

/** All stages; undefined before anything was learned. */
export async function readRecords(actor: Actor): Promise<RecordsShown | undefined> {
  const grant = demand(actor, 'forecast.read')
  const page = await readLearnedPage(grant)
  if (page === undefined) return undefined
  const [trade, arrivals] = await Promise.all([readTrade(), listArrivalNumbers(grant, page.run.id)])
  const all = page.cells.map(cell => stageSaid(trade, cell)).sort(mostFirst)
  return {
    run: page.run,
    earlierAsOf: page.earlierAsOf,
    farthest: all
      .filter(isFar)
      .sort((a, b) => farness(b) - farness(a))
      .slice(0, FARTHEST_MAX),
    own: byCondition(all.filter(({ animals }) => animals > 0)),
    others: all.filter(({ animals }) => animals === 0).sort(byName),
    arrivals: arrivals
      .filter(({ events }) => events > 0)
      .map(one => ({ ...one, name: groupOf(trade, one.group).name })),
  }
}

/** How far a learning is; `isStale` where its worker has not said so for longer than any step takes. */
export type LearningShown = JobProgress & { readonly isStale: boolean }

const STALE_MS = 5 * 60_000

/** The learning that runs now, or broke off; undefined while none does. */
export async function readLearning(actor: Actor, now: Date): Promise<LearningShown | undefined> {
  const progress = await findProgress(demand(actor, 'forecast.read'), LEARNING)
  if (progress === undefined) return undefined
  return { ...progress, isStale: now.getTime() - progress.toldAt.getTime() > STALE_MS }
}

/** The conditions with the most animals first; within one the order stays. */
function byCondition(stages: readonly StageSaid[]): RecordsShown['own'] {
  const groups = new Map<string, StageSaid[]>()
  for (const stage of stages) {
    groups.set(stage.condition, [...(groups.get(stage.condition) ?? []), stage])
  }
  return [...groups]
    .map(([slug, its]) => ({ slug, condition: its[0]?.conditions.join(' and ') ?? slug, stages: its }))
    .sort((a, b) => animalsOf(b.stages) - animalsOf(a.stages) || (a.condition < b.condition ? -1 : 1))
}

const isFar = ({ animals, stretch: { low, high } }: StageSaid) => animals > 0 && (low > 1 || high < 1)
const farness = ({ stretch }: StageSaid) => Math.abs(Math.log(stretch.mean))

const recordKey = z.string().min(1).max(2000)

/** One stage in full. Failure 'not-found' for a key that the newest learning has not. */
export async function readRecord(actor: Actor, key: string): Promise<RecordShown> {
  const grant = demand(actor, 'forecast.read')
  const wanted = parse(recordKey, key)
  const page = await readLearnedPage(grant)
  const cell = page?.cells.find(one => one.key === wanted)
  if (page === undefined || cell === undefined) throw new Failure('not-found')
  const [curve, before, trade] = await Promise.all([
    findLearnedCurve(grant, page.run.id, wanted),
    page.earlierId === null ? undefined : findLearnedCurve(grant, page.earlierId, wanted),
    readTrade(),
  ])
  if (curve === undefined) throw new Failure('not-found')
  return {
    run: page.run,
    earlierAsOf: page.earlierAsOf,
    said: stageSaid(trade, cell),
    curve,
    before: before?.opens === curve.opens ? before.learned : null,
    marks: marksOf(trade, cell),
  }
}

function stageSaid(trade: Trade, cell: LearnedCell): StageSaid {
  const conditions = cell.condition.split('+').map(slug => trade.conditionBySlug.get(slug)?.name ?? slug)
  return { ...cell, conditions, plans: plansOf(trade, cell) }
}

function plansOf(trade: Trade, { planIds }: LearnedCell): CarePlan[] {
  return trade.plans.filter(({ id }) => planIds.includes(id))
}

/** The marks of the stage as setup has it today, if it says what was learned against. */
function marksOf(trade: Trade, cell: LearnedCell): StageMarks | null {
  const plans = plansOf(trade, cell)
  if (plans.length < cell.planIds.length) return null
  const stage = combinePlans(plans).stages.find(one => one.stage === cell.estimate.stage)
  return stage !== undefined && saysTheSame(stage.estimate, cell.estimate) ? stage.marks : null
}

const animalsOf = (stages: readonly StageSaid[]) => stages.reduce((sum, { animals }) => sum + animals, 0)
const inOrder = (a: StageSaid, b: StageSaid) => (a.key < b.key ? -1 : 1)
const mostFirst = (a: StageSaid, b: StageSaid) => b.animals - a.animals || inOrder(a, b)

function byName(a: StageSaid, b: StageSaid): number {
  const [one, other] = [a.conditions.join(), b.conditions.join()]
  return one === other ? inOrder(a, b) : one < other ? -1 : 1
}
