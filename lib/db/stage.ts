/**
 * What is said about a stay: stages reached and ready, notes, revised plans, identifications.
 * Promise: nothing is overwritten; a revised plan is a new version beside the old. Writes run inside an entry
 * (entry.ts), after the casualty's lock. Days are civil dates.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { PlanStage } from '#lib/domain/care-plan.ts'
import type { CheckPlanned } from '#lib/domain/care-plan-check.ts'
import { type DayNumber, dateOfDay } from '#lib/domain/day.ts'
import { type StageEstimate, stageEstimate } from '#lib/domain/estimate.ts'
import type { Occurred } from '#lib/domain/precision.ts'
import type { Age } from '#lib/domain/species.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import { occurredRow } from './entered.ts'
import type { EntryTx } from './entry.ts'

/** Holds the casualty until the entry ends, so that two people's words about it follow each other. */
export async function lockCasualty({ tx }: EntryTx, casualtyId: number): Promise<void> {
  await tx.$queryRaw`select 1 from casualty where id = ${casualtyId}::int for no key update`
}

/**
 * A stage of the newest plan began, or the animal is ready to leave it. Checks of the stages before are called off when
 * one begins. Returns whether checks of this stage or a later one hang on the days of stages. Failure 'rule' when the
 * stage is not in the plan.
 */
export async function recordStageFact(
  { tx, entryId }: EntryTx,
  fact: {
    readonly casualtyId: number
    readonly stageNo: number
    readonly kind: 'began' | 'ready'
  } & Occurred,
  now: Date,
): Promise<boolean> {
  const { casualtyId, stageNo, kind, at, earliest, latest } = fact
  const [made] = await tx.$queryRaw<{ isCounted: boolean }[]>`
    with said as (
      insert into stage_fact (entry_id, casualty_id, stage_no, kind, at, at_earliest, at_latest)
      select ${entryId}::int, ${casualtyId}::int, stage_no, ${kind}::text, ${at}::timestamptz,
             ${earliest ?? null}::timestamptz, ${latest ?? null}::timestamptz
        from casualty_stage
       where stage_no = ${stageNo}::int and casualty_plan_id = (
         select id from casualty_plan where casualty_id = ${casualtyId}::int order by version_no desc limit 1)
      returning 1),
    called_off as (
      update check_due set called_off_at = ${now}::timestamptz
       where ${kind}::text = 'began' and casualty_id = ${casualtyId}::int and stage_no < ${stageNo}::int
         and done_at is null and called_off_at is null)
    select exists (select from check_due
             where casualty_id = ${casualtyId}::int and stage_no >= ${stageNo}::int and counted_from is not null
               and done_at is null and called_off_at is null) as "isCounted"
      from said`
  if (made === undefined) throw new Failure('rule', { rule: 'stage-not-in-the-plan', field: 'stageNo' })
  return made.isCounted
}

/** Takes back the stage facts of an entry, and that it called off checks of the stages before. */
export async function voidStageFacts({ tx, entryId }: EntryTx, ofEntryId: number): Promise<void> {
  const facts = await tx.stageFact.findMany({
    where: { entryId: ofEntryId, isVoid: false },
    include: { entry: { select: { enteredAt: true } } },
  })
  for (const { id, casualtyId, stageNo, kind, at, entry } of facts) {
    await tx.stageFact.create({
      data: { entryId, casualtyId, stageNo, kind, at, isVoid: true, supersedes: id },
    })
    if (kind === 'ready') continue
    await tx.checkDue.updateMany({
      where: { casualtyId, stageNo: { lt: stageNo }, doneAt: null, calledOffAt: entry.enteredAt },
      data: { calledOffAt: null },
    })
  }
}

/** Failure 'rule' when the stage is not in the newest plan. */
export async function requireStage({ tx }: EntryTx, casualtyId: number, stageNo: number): Promise<void> {
  const stages = await tx.$queryRaw<unknown[]>`
    select 1 from casualty_stage
     where stage_no = ${stageNo}::int and casualty_plan_id = (
       select id from casualty_plan where casualty_id = ${casualtyId}::int order by version_no desc limit 1)`
  if (stages.length === 0) {
    throw new Failure('rule', { rule: 'stage-not-in-the-plan', field: 'stageNo' })
  }
}

/** The number of the first stage of a plan of which nothing has begun. */
export async function findFirstStageAhead(
  _grant: Grant<'casualty.read'>,
  casualtyId: number,
): Promise<number | undefined> {
  const [first] = await db().$queryRaw<{ no: number }[]>`
    select s.stage_no as no
      from casualty_stage s
     where s.casualty_plan_id = (
             select id from casualty_plan where casualty_id = ${casualtyId}::int order by version_no desc limit 1)
       and not exists (
             select from stage_fact f
              where f.casualty_id = ${casualtyId}::int and f.kind = 'began' and not f.is_void
                and not exists (select from stage_fact z where z.supersedes = f.id))
     order by s.stage_no limit 1`
  return first?.no
}

export type PlannedStage = {
  readonly no: number
  readonly estimate: StageEstimate
  readonly beganAt: Date | null
}

/** The stages of the newest plan in order, each with the instant it began, as last recorded. */
export async function listPlannedStages({ tx }: EntryTx, casualtyId: number): Promise<PlannedStage[]> {
  const rows = await tx.$queryRaw<{ no: number; estimate: unknown; beganAt: Date | null }[]>`
    select s.stage_no as no, s.estimate,
           (select f.at from stage_fact f
             where f.casualty_id = p.casualty_id and f.stage_no = s.stage_no and f.kind = 'began' and not f.is_void
               and not exists (select from stage_fact z where z.supersedes = f.id)
             order by f.id desc limit 1) as "beganAt"
      from casualty_stage s
      join casualty_plan p on p.id = s.casualty_plan_id
     where p.id = (select id from casualty_plan where casualty_id = ${casualtyId}::int order by version_no desc limit 1)
     order by s.stage_no`
  return rows.map(({ estimate, ...row }) => ({ ...row, estimate: stageEstimate.parse(estimate) }))
}

/** Counts the open checks of stages from other first days; what a person set or another check asked for stays. */
export async function countChecksFrom(
  { tx }: EntryTx,
  casualtyId: number,
  firstDays: ReadonlyMap<number, DayNumber>,
): Promise<void> {
  const stageNos = [...firstDays.keys()]
  const days = [...firstDays.values()].map(dateOfDay)
  await tx.$executeRaw`
    update check_due c set due_on = c.due_on + (f.day - c.counted_from), counted_from = f.day
      from unnest(${stageNos}::int[], ${days}::text[]::date[]) as f (stage_no, day)
     where c.casualty_id = ${casualtyId}::int and c.stage_no = f.stage_no and c.counted_from <> f.day
       and c.done_at is null and c.called_off_at is null`
}

/** Words about a casualty. */
export async function recordWords(
  { tx, entryId }: EntryTx,
  {
    casualtyId,
    words,
    writtenBy,
    ...when
  }: {
    readonly casualtyId: number
    readonly words: string
    readonly writtenBy: number | null
  } & Occurred,
): Promise<void> {
  await tx.note.create({ data: { entryId, casualtyId, words, writtenBy, ...occurredRow(when) } })
}

export type StageChange = {
  readonly stageNo: number
  readonly estimate: (before: StageEstimate) => StageEstimate
  /** Its lengths stay as they were, so they keep their source. */
  readonly keepsSource?: boolean
  readonly centreId?: number | undefined
}

/** A stage of the reference that the plan did not have. */
export type AddedStage = Pick<PlanStage, 'stage' | 'housing' | 'estimate' | 'marks' | 'stateGate'> & {
  readonly no: number
}

/** A new version of the plan: the newest with these stages changed. The version before stays readable. */
export async function createPlanVersion(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  because: string,
  changes: readonly StageChange[],
  added?: AddedStage,
): Promise<number> {
  const before = await tx.casualtyPlan.findFirst({
    where: { casualtyId },
    orderBy: { versionNo: 'desc' },
    include: { casualtyStageByCasualtyPlanId: { orderBy: { stageNo: 'asc' } } },
  })
  if (before === null) throw new Failure('rule', { rule: 'no-plan-yet' })
  const stages = before.casualtyStageByCasualtyPlanId
  const unknown = changes.find(change => stages.every(stage => stage.stageNo !== change.stageNo))
  if (unknown !== undefined) throw new Failure('rule', { rule: 'stage-not-in-the-plan', field: 'stageNo' })
  const { id } = await tx.casualtyPlan.create({
    data: { entryId, casualtyId, versionNo: before.versionNo + 1, planIds: before.planIds, because },
    select: { id: true },
  })
  await tx.casualtyStage.createMany({
    data: stages.map(({ casualtyPlanId: _old, marks, estimate, ...stage }) => {
      const change = changes.find(one => one.stageNo === stage.stageNo)
      const kept = { ...stage, casualtyPlanId: id }
      const old = marks !== null && typeof marks === 'object' && !Array.isArray(marks) ? marks : {}
      if (change === undefined) return { ...kept, estimate: estimate ?? {}, marks: old }
      return {
        ...kept,
        centreId: change.centreId ?? stage.centreId,
        estimate: change.estimate(stageEstimate.parse(estimate)),
        marks: change.keepsSource === true ? old : { ...old, lengths: 'revised' },
      }
    }),
  })
  if (added !== undefined) {
    const { no: stageNo, stage, housing: housingType, estimate, marks, stateGate: waitsFor } = added
    await tx.casualtyStage.create({
      data: { casualtyPlanId: id, stageNo, stage, housingType, estimate, marks, waitsFor },
    })
  }
  return before.versionNo + 1
}

/** What the animal is, as is known now; its stays are settled again, since its company may be another. */
export async function recordIdentified(
  { tx, entryId }: EntryTx,
  animal: {
    readonly casualtyId: number
    readonly species: string
    readonly age: Age
    readonly isAlone: boolean
    readonly supersedes?: number | undefined
  },
  at: Date,
): Promise<void> {
  const { casualtyId, supersedes } = animal
  if (supersedes !== undefined) {
    const found = await tx.identification.count({ where: { id: supersedes, casualtyId } })
    if (found === 0) throw new Failure('not-found')
  }
  await tx.$queryRaw`
    select identify(${entryId}::int, ${animal.casualtyId}::int, ${animal.species}::text, ${animal.age}::text,
      ${animal.isAlone}::boolean, ${animal.supersedes ?? null}::int, ${at}::timestamptz)`
}

/** What it is and when it came. */
export async function getAnimal(
  { tx }: EntryTx,
  casualtyId: number,
): Promise<{ readonly species: string; readonly age: Age; readonly arrivedAt: Date }> {
  const row = await tx.casualty.findUnique({
    where: { id: casualtyId },
    select: { speciesSlug: true, age: true, arrival: { select: { at: true } } },
  })
  if (row === null) throw new Failure('not-found')
  return {
    species: row.speciesSlug,
    age: row.age === 'adult' || row.age === 'young' ? row.age : 'unknown',
    arrivedAt: row.arrival.at,
  }
}

/** The checks of a stage that was added to a plan. */
export async function createChecks(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  stageNo: number,
  checks: readonly CheckPlanned[],
): Promise<void> {
  const date = (day: DayNumber | null) => (day === null ? null : new Date(dateOfDay(day)))
  await tx.checkDue.createMany({
    data: checks.map(({ check, dueOn, countedFrom, stage: _stage, ...rest }) => ({
      ...rest,
      entryId,
      casualtyId,
      stageNo,
      checkSlug: check,
      dueOn: date(dueOn),
      countedFrom: date(countedFrom),
    })),
  })
}
