/**
 * Checks done: what was found, when it is due again, and which promises a check that was not passed took away.
 * Promise: a check is done once; promises that give way are kept by name. Writes run inside an entry (entry.ts), after
 * the casualty's lock. Days are civil dates.
 */
import 'server-only'
import type { Grant, Row } from '#lib/authz/demand.ts'
import type { Found } from '#lib/domain/check-result.ts'
import { type DayNumber, dateOfDay } from '#lib/domain/day.ts'
import type { Occurred } from '#lib/domain/precision.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'
import { type ReachRow, reachOf, reachRows } from './keeping.ts'

export type CheckAsked = {
  readonly casualtyId: number
  readonly stageNo: number
  readonly slug: string
  readonly requiredFor: string | null
  readonly intervalDays: number | null
}

/** A check, and whom its casualty concerns: both are asked before each of the hundreds that are done in a day. */
export type CheckReached = { readonly check: CheckAsked; readonly reach: Required<Row> }

/** What a check is, by its number. Failure 'not-found' without it. */
export async function getCheck(_grant: Grant<'system.run'>, checkId: number): Promise<CheckReached> {
  const rows = await db().$queryRaw<(CheckAsked & ReachRow)[]>`
    select d.casualty_id as "casualtyId", d.stage_no as "stageNo", d.check_slug as slug, d.required_for as "requiredFor",
           d.interval_days as "intervalDays", r."centreId", r."practiceId"
      from check_due d cross join lateral (${reachRows(Prisma.sql`d.casualty_id`)}) r where d.id = ${checkId}::int`
  const [row] = rows
  if (row === undefined) throw new Failure('not-found')
  const { casualtyId, stageNo, slug, requiredFor, intervalDays } = row
  return { check: { casualtyId, stageNo, slug, requiredFor, intervalDays }, reach: reachOf(rows) }
}

export type CheckResult = {
  readonly checkId: number
  readonly by: number | null
  readonly passed: boolean
  readonly found: Found | null
  readonly signedBy: string | null
  readonly moreDays: number | null
  readonly result: string
  /** What it weighed, where it was weighed for the check. */
  readonly grams: number | null
} & Occurred

/**
 * A check was done, with the weight where there is one, and the same is asked for again where it repeats; without a
 * day that is due when the animal is ready. Failure 'conflict' when somebody recorded it already.
 */
export async function recordCheckDone(
  { tx, entryId }: EntryTx,
  { checkId, at, earliest, latest, by, passed, found, signedBy, moreDays, result, grams }: CheckResult,
  again: { readonly dueOn: DayNumber | null } | undefined,
): Promise<void> {
  const dueOn = again === undefined || again.dueOn === null ? null : dateOfDay(again.dueOn)
  const done = await tx.$queryRaw<unknown[]>`
    with done as (
      update check_due
         set done_at = ${at}::timestamptz, done_earliest = ${earliest ?? null}::timestamptz,
             done_latest = ${latest ?? null}::timestamptz, done_by = ${by}::int, passed = ${passed}::boolean,
             found = ${found}::text, signed_by = ${signedBy}::text, more_days = ${moreDays}::int,
             result = nullif(${result}::text, ''), entry_id = ${entryId}::int
       where id = ${checkId}::int and done_at is null
      returning *),
    again as (
      insert into check_due (casualty_id, entry_id, stage_no, check_slug, what, due_on, interval_days, required_for,
                             who, mark, anchor)
      select casualty_id, entry_id, stage_no, check_slug, what, ${dueOn}::date, interval_days, required_for, who, mark,
             anchor
        from done where ${again !== undefined}::boolean),
    weighed as (
      insert into weight (entry_id, casualty_id, at, at_earliest, at_latest, grams)
      select entry_id, casualty_id, done_at, done_earliest, done_latest, ${grams}::double precision
        from done where ${grams}::double precision is not null)
    select 1 from done`
  if (done.length === 0) throw new Failure('conflict', { rule: 'check-done-already' })
}

/** A check that an entry did is open again; what it made due again is called off, and who was ready is ready. */
export async function reopenChecks({ tx, entryId }: EntryTx, ofEntryId: number, now: Date): Promise<void> {
  await tx.checkDue.updateMany({
    where: { entryId: ofEntryId, doneAt: null, calledOffAt: null },
    data: { calledOffAt: now },
  })
  await tx.checkDue.updateMany({
    where: { entryId: ofEntryId, doneAt: { not: null } },
    data: {
      doneAt: null,
      doneEarliest: null,
      doneLatest: null,
      doneBy: null,
      passed: null,
      found: null,
      signedBy: null,
      moreDays: null,
      result: null,
      entryId,
    },
  })
  const undone = await tx.stageFact.findMany({
    where: { entryId: ofEntryId, kind: 'ready', isVoid: true },
    select: {
      supersedesOf: {
        select: { casualtyId: true, stageNo: true, kind: true, at: true, atEarliest: true, atLatest: true },
      },
    },
  })
  await tx.stageFact.createMany({
    data: undone.flatMap(({ supersedesOf }) => (supersedesOf === null ? [] : [{ entryId, ...supersedesOf }])),
  })
}

/** Whoever was recorded ready to leave the stage is not: the words before stay readable. */
export async function takeBackReady(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  stageNo: number,
  at: Date,
): Promise<void> {
  const ready = await tx.stageFact.findMany({
    where: { casualtyId, stageNo, kind: 'ready', isVoid: false, stageFactBySupersedes: { is: null } },
    select: { id: true },
  })
  await tx.stageFact.createMany({
    data: ready.map(({ id }) => ({
      entryId,
      casualtyId,
      stageNo,
      kind: 'ready',
      at,
      isVoid: true,
      supersedes: id,
    })),
  })
}

/** What bars the way out of a stage once is not done before a day: its open checks that do not repeat wait until then. */
export async function holdChecksUntil(
  { tx }: EntryTx,
  casualtyId: number,
  stageNo: number,
  day: DayNumber,
): Promise<void> {
  const date = dateOfDay(day)
  await tx.$executeRaw`
    update check_due set due_on = ${date}::date, counted_from = null
     where casualty_id = ${casualtyId}::int and stage_no = ${stageNo}::int and done_at is null and called_off_at is null
       and required_for is not null and interval_days is null and due_on < ${date}::date`
}

/** Open checks that are counted from an operation hang on its day from now on. Returns the latest that bars the way. */
export async function countFromSurgery(
  { tx }: EntryTx,
  casualtyId: number,
  day: DayNumber,
): Promise<readonly { readonly stageNo: number; readonly dueOn: Date }[]> {
  const date = dateOfDay(day)
  await tx.$executeRaw`
    update check_due set due_on = ${date}::date + (due_on - counted_from), counted_from = null
     where casualty_id = ${casualtyId}::int and anchor = 'surgery' and counted_from is not null
       and done_at is null and called_off_at is null`
  return tx.$queryRaw<{ stageNo: number; dueOn: Date }[]>`
    select stage_no as "stageNo", max(due_on) as "dueOn" from check_due
     where casualty_id = ${casualtyId}::int and anchor = 'surgery' and required_for is not null and due_on is not null
       and done_at is null and called_off_at is null
     group by 1 order by 1`
}

/** Promises move with the later stages or give way; how many did. Places kept for the stage itself stay. */
export async function delayPromises(
  { tx, entryId }: EntryTx,
  check: { readonly checkId: number; readonly casualtyId: number; readonly stageNo: number },
  days: number,
  at: Date,
): Promise<number> {
  const [done] = await tx.$queryRaw<{ count: number }[]>`
    select delay_promises(${entryId}::int, ${check.checkId}::int, ${check.casualtyId}::int,
      coalesce((select array[s.housing_type] || s.housing_also from casualty_stage s
        where s.stage_no = ${check.stageNo}::int
          and s.casualty_plan_id = (select max(id) from casualty_plan where casualty_id = ${check.casualtyId}::int)), '{}'),
      ${days}::int, ${at}::timestamptz) as count`
  return done?.count ?? 0
}

export type Displaced = {
  readonly checkId: number
  readonly reference: string
  readonly isItself: boolean
  readonly enclosure: string
  readonly centre: string
  readonly how: 'broken' | 'moved'
  readonly wasAt: Date
  readonly nowAt: Date | null
  /** Nobody has kept another place for it since, nor is it where it was to go. */
  readonly isOpen: boolean
}

/** Promises that checks of this animal took away or moved. */
export async function listDisplaced(_grant: Grant<'casualty.read'>, id: number): Promise<Displaced[]> {
  return db().$queryRaw<Displaced[]>`
    select x.check_id as "checkId", o.reference, o.id = ${id}::int as "isItself", e.name as enclosure, n.name as centre,
           x.how, x.was_at as "wasAt", x.now_at as "nowAt",
           x.how = 'broken' and w.keeper <> 'nobody' and w.enclosure_id is distinct from e.id
             and not exists (select from claim h where h.casualty_id = o.id and h.kind = 'hold' and h.state = 'live') as "isOpen"
      from check_displaced x join check_due d on d.id = x.check_id and d.casualty_id = ${id}::int
      join claim c on c.id = x.claim_id join casualty o on o.id = c.casualty_id
      join enclosure e on e.id = c.enclosure_id join centre n on n.id = e.centre_id
      join whereabouts w on w.casualty_id = o.id and w.until is null
     order by x.check_id desc, x.was_at, x.claim_id`
}
