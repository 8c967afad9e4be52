/**
 * What was learned of stages: runs, each whole, of which the newest is read.
 * Promise: a run is published in one transaction that also moves the knowledge revision, so that whoever keeps knowledge
 * or a forecast reads anew. Kept are the newest ten and the first of each of thirteen months.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { type DayNumber, dateOfDay, dayOfDate } from '#lib/domain/day.ts'
import { bytesOf, numbersOf } from '#lib/domain/day-numbers.ts'
import { type StageEstimate, stageEstimate } from '#lib/domain/estimate.ts'
import type { LearnedDoubt } from '#lib/domain/learned-doubt.ts'
import { type LearnedHazards, SEASONS, type Season } from '#lib/domain/stage-cell.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import { inAudited } from './entry.ts'
import { insertArrivals, type LearnedArrivalsRow } from './learned-arrivals.ts'

const RUNS_KEPT = 10
const MONTHS_KEPT = 13
/** A statement takes so many values and no more; a stage has some thirty. */
const ROWS_AT_ONCE = 500

/** `revision`: facts up to it were learned from; `knowledgeRevision`: of the plans that they were learned against. */
export type LearningRun = {
  readonly modelVersion: string
  readonly asOf: DayNumber
  readonly learnedAt: Date
  readonly revision: number
  readonly knowledgeRevision: number
  readonly planWeight: number
  readonly seed: number
  readonly animals: number
  readonly inputsDigest: string
  readonly digest: string
}

type StageHazards = Omit<LearnedHazards, 'key' | 'run'>

/** Of one length, by days since entry; `opens`: days until the date gate of the stay that is drawn. */
export type LearnedCurve = {
  readonly opens: number
  readonly plan: Float64Array
  readonly learned: Float64Array
  readonly low: Float64Array
  readonly high: Float64Array
  readonly atRisk: Float64Array
}

export type StageNumbers = {
  readonly key: string
  readonly planIds: readonly string[]
  readonly stageNo: number
  readonly condition: string
  readonly season: Season | null
  readonly estimate: StageEstimate
  readonly animals: number
  readonly stretch: { readonly mean: number; readonly low: number; readonly high: number }
  readonly earlyOdds: number
  readonly lean: number
}

export type LearnedStageRow = StageNumbers & {
  readonly hazards: StageHazards
  readonly curve: LearnedCurve
}

/** All that a run found. */
export type Learned = {
  readonly stages: readonly LearnedStageRow[]
  readonly arrivals: readonly LearnedArrivalsRow[]
  readonly doubts: readonly LearnedDoubt[]
}

/** The run of a number, or the newest. */
export async function findRun(
  _grant: Grant<'system.run' | 'forecast.read'>,
  id?: number,
): Promise<(LearningRun & { readonly id: number; readonly cells: number }) | undefined> {
  const row = await db().learningRun.findFirst({
    where: id === undefined ? {} : { id },
    orderBy: { id: 'desc' },
  })
  return row === null ? undefined : { ...row, asOf: dayOf(row.asOf) }
}

/**
 * Publishes a run after the one it was begun after (null: the first). Failure 'conflict' where another was published
 * meanwhile; nothing is written then. Gives its number.
 */
export async function publishRun(
  grant: Grant<'system.run'>,
  run: LearningRun,
  { stages, arrivals, doubts }: Learned,
  after: number | null,
): Promise<number> {
  const about = { now: run.learnedAt, action: 'learn', subject: 'learning_run', subjectId: String }
  return inAudited(grant, about, async ({ tx }) => {
    // Other publishers wait here, readers do not.
    await tx.$executeRaw`lock table learning_run in share row exclusive mode`
    const newest = await tx.learningRun.findFirst({ select: { id: true }, orderBy: { id: 'desc' } })
    if ((newest?.id ?? null) !== after) throw new Failure('conflict')
    const { id } = await tx.learningRun.create({
      data: { ...run, asOf: new Date(dateOfDay(run.asOf)), cells: stages.length },
    })
    for (let from = 0; from < stages.length; from += ROWS_AT_ONCE) {
      const some = stages.slice(from, from + ROWS_AT_ONCE)
      await tx.learnedStage.createMany({ data: some.map(stage => rowOf(id, stage)) })
    }
    await insertArrivals(tx, id, arrivals, doubts)
    await tx.$executeRaw`
      delete from learning_run where id not in (
        (select id from learning_run order by id desc limit ${RUNS_KEPT}::int)
        union (select min(id) from learning_run
                where as_of > ${dateOfDay(run.asOf)}::date - make_interval(months => ${MONTHS_KEPT}::int)
                group by date_trunc('month', as_of)))`
    // Last, as every writer does, since each of them waits for this row.
    await tx.$executeRaw`update network set knowledge_revision = knowledge_revision + 1`
    return id
  })
}

/** What forecasts read: the hazards of the newest run by cell, none before the first. `run` is its number as text. */
export async function readLearned(_grant: Grant<'system.run'>): Promise<LearnedHazards[]> {
  const rows = await db().$queryRaw<(HazardsRow & { readonly key: string; readonly runId: number })[]>`
    select s.key, s.run_id as "runId", s.days, s.died, s.euthanased, s.left_care as "leftCare", s.passes, s.beyond
      from learned_stage s where s.run_id = (select max(id) from learning_run) order by s.key`
  return rows.map(row => ({ key: row.key, run: String(row.runId), ...hazardsOf(row) }))
}

/** The stages of a run, whole: as they were put to it, and what it found. */
export async function listStages(_grant: Grant<'system.run'>, runId: number): Promise<LearnedStageRow[]> {
  const rows = await db().learnedStage.findMany({ where: { runId } })
  return rows.map(row => ({ ...numbersOfRow(row), hazards: hazardsOf(row), curve: curveOfRow(row) }))
}

/** For a page: a cell's numbers, with how far its plan was out about a month ago where a run of then is kept. */
export type LearnedCell = StageNumbers & { readonly earlier: StageNumbers['stretch'] | null }

/**
 * The newest run's cells for a page, without their days; `earlierAsOf` is the day of the run they are compared with, that
 * one of those at least two weeks older which is nearest to thirty days. Undefined before the first run.
 */
export async function readLearnedPage(grant: Grant<'forecast.read'>): Promise<
  | {
      readonly run: LearningRun & { readonly id: number; readonly cells: number }
      readonly earlierAsOf: DayNumber | null
      readonly earlierId: number | null
      readonly cells: readonly LearnedCell[]
    }
  | undefined
> {
  const run = await findRun(grant)
  if (run === undefined) return undefined
  const [earlier] = await db().$queryRaw<{ id: number; asOf: Date }[]>`
    select id, as_of as "asOf" from learning_run where as_of <= ${dateOfDay(run.asOf)}::date - 14
     order by abs(${dateOfDay(run.asOf)}::date - as_of - 30), id desc limit 1`
  const [rows, before] = await Promise.all([
    db().learnedStage.findMany({ where: { runId: run.id }, omit: DAYS_OF_A_CELL, orderBy: { key: 'asc' } }),
    db().learnedStage.findMany({
      where: { runId: earlier?.id ?? 0 },
      select: { key: true, stretchMean: true, stretchLow: true, stretchHigh: true },
    }),
  ])
  const stretches = new Map(before.map(row => [row.key, stretchOf(row)]))
  return {
    run,
    earlierAsOf: earlier === undefined ? null : dayOf(earlier.asOf),
    earlierId: earlier?.id ?? null,
    cells: rows.map(row => ({ ...numbersOfRow(row), earlier: stretches.get(row.key) ?? null })),
  }
}

/** The curve of a cell as a run has it; undefined where it has none. */
export async function findLearnedCurve(
  _grant: Grant<'forecast.read'>,
  runId: number,
  key: string,
): Promise<LearnedCurve | undefined> {
  const row = await db().learnedStage.findUnique({
    where: { runId_key: { runId, key } },
    select: {
      opensAfter: true,
      curvePlan: true,
      curveLearned: true,
      curveLow: true,
      curveHigh: true,
      atRisk: true,
    },
  })
  return row === null ? undefined : curveOfRow(row)
}

const DAYS_OF_A_CELL = {
  died: true,
  euthanased: true,
  leftCare: true,
  passes: true,
  curvePlan: true,
  curveLearned: true,
  curveLow: true,
  curveHigh: true,
  atRisk: true,
} as const

type CurveRow = {
  readonly opensAfter: number
  readonly curvePlan: Uint8Array
  readonly curveLearned: Uint8Array
  readonly curveLow: Uint8Array
  readonly curveHigh: Uint8Array
  readonly atRisk: Uint8Array
}

function curveOfRow(row: CurveRow): LearnedCurve {
  return {
    opens: row.opensAfter,
    plan: numbersOf(row.curvePlan),
    learned: numbersOf(row.curveLearned),
    low: numbersOf(row.curveLow),
    high: numbersOf(row.curveHigh),
    atRisk: numbersOf(row.atRisk),
  }
}

type HazardsRow = {
  readonly days: number
  readonly died: Uint8Array
  readonly euthanased: Uint8Array
  readonly leftCare: Uint8Array
  readonly passes: Uint8Array
  readonly beyond: unknown
}

const share = z.number().min(0)
const byExit = z.object({ onward: share, died: share, euthanased: share, left: share })

function hazardsOf({ days, died, euthanased, leftCare, passes, beyond }: HazardsRow): StageHazards {
  return {
    days,
    died: numbersOf(died),
    euthanased: numbersOf(euthanased),
    left: numbersOf(leftCare),
    passes: numbersOf(passes),
    beyond: byExit.parse(beyond),
  }
}

function rowOf(runId: number, { hazards, curve, stretch, estimate, planIds, ...stage }: LearnedStageRow) {
  return {
    ...stage,
    runId,
    planIds: [...planIds],
    stage: estimate.stage,
    estimate,
    days: hazards.days,
    stretchMean: stretch.mean,
    stretchLow: stretch.low,
    stretchHigh: stretch.high,
    died: bytesOf(hazards.died),
    euthanased: bytesOf(hazards.euthanased),
    leftCare: bytesOf(hazards.left),
    passes: bytesOf(hazards.passes),
    beyond: hazards.beyond,
    opensAfter: curve.opens,
    curvePlan: bytesOf(curve.plan),
    curveLearned: bytesOf(curve.learned),
    curveLow: bytesOf(curve.low),
    curveHigh: bytesOf(curve.high),
    atRisk: bytesOf(curve.atRisk),
  }
}

type NumbersRow = Omit<StageNumbers, 'stretch' | 'season' | 'estimate'> & {
  readonly season: string | null
  readonly estimate: unknown
} & StretchRow

type StretchRow = {
  readonly stretchMean: number
  readonly stretchLow: number
  readonly stretchHigh: number
}

function numbersOfRow(row: NumbersRow): StageNumbers {
  return {
    key: row.key,
    planIds: row.planIds,
    stageNo: row.stageNo,
    condition: row.condition,
    season: SEASONS.find(season => season === row.season) ?? null,
    estimate: stageEstimate.parse(row.estimate),
    animals: row.animals,
    stretch: stretchOf(row),
    earlyOdds: row.earlyOdds,
    lean: row.lean,
  }
}

function stretchOf({ stretchMean, stretchLow, stretchHigh }: StretchRow): StageNumbers['stretch'] {
  return { mean: stretchMean, low: stretchLow, high: stretchHigh }
}

function dayOf(date: Date): DayNumber {
  return dayOfDate(date.toISOString().slice(0, 10))
}
