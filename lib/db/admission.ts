/**
 * What confirming an option writes: finder, arrival, casualties with what is known of them, plan, checks, holds.
 * Promise: one transaction with the decision; a hold that a constraint refuses undoes all of it. Times are instants,
 * due days civil dates. Runs inside an entry (entry.ts), which gives the revision last.
 */
import 'server-only'
import type { Severity } from '#lib/domain/care-plan.ts'
import type { CheckPlanned } from '#lib/domain/care-plan-check.ts'
import type { CombinedStage } from '#lib/domain/care-plan-combination.ts'
import { type DayNumber, dateOfDay } from '#lib/domain/day.ts'
import type { HousingType } from '#lib/domain/housing.ts'
import type { Age } from '#lib/domain/species.ts'
import type { Prisma } from '#prisma/generated/client.ts'

type Tx = Prisma.TransactionClient

export type AdmittedStage = {
  readonly stage: CombinedStage
  /** In order of preference; the first is what the forecast counts. */
  readonly housing: readonly HousingType[]
  readonly centreId: number | null
}

export type Admission = {
  readonly at: Date
  readonly today: DayNumber
  readonly callId: number | null
  readonly foundWords: string
  readonly where: { readonly latitude: number; readonly longitude: number } | null
  readonly finder: { readonly name: string; readonly phone: string; readonly expiresOn: DayNumber } | null
  readonly references: readonly string[]
  readonly species: string
  readonly company: string
  readonly age: Age
  readonly isAlone: boolean
  readonly isBatch: boolean
  readonly isDiseaseSuspect: boolean
  readonly leave: { readonly at: Date; readonly words: string } | null
  readonly findings: readonly { readonly condition: string; readonly severity: Severity | null }[]
  readonly planIds: readonly string[]
  readonly because: string
  readonly stages: readonly AdmittedStage[]
  /** Of every stage, with its number from 1. */
  readonly checks: readonly (CheckPlanned & { readonly stageNo: number })[]
}

export type Admitted = { readonly arrivalId: number; readonly casualtyIds: readonly number[] }

export type HoldWanted = {
  readonly casualtyId: number
  readonly enclosureId: number
  readonly placeNo: number
  readonly startsAt: Date
  readonly expectedAt: Date
  readonly expiresAt: Date
  readonly needsIsolation: boolean
}

/** References given after a day, so that none of them is given again. In one row: there are thousands. */
export async function listGivenReferences(tx: Tx, after: DayNumber): Promise<string[]> {
  const [given] = await tx.$queryRaw<{ references: string | null }[]>`
    select string_agg(reference, ';') as references from casualty where given_on > ${dateOfDay(after)}::date`
  return given?.references?.split(';') ?? []
}

/** Which of some references were given after a day, and how many of two digits were, counted up to a limit. */
export async function readGiven(
  tx: Tx,
  after: DayNumber,
  { tried, limit }: { readonly tried: readonly string[]; readonly limit: number },
): Promise<{ readonly ofTried: readonly string[]; readonly twoDigits: number }> {
  const day = dateOfDay(after)
  const [given] = await tx.$queryRaw<{ ofTried: string[]; twoDigits: number }[]>`
    select array(select reference from casualty
                  where reference = any (${[...tried]}::text[]) and given_on > ${day}::date) as "ofTried",
           (select count(*)::int from (select from casualty
             where given_on > ${day}::date and reference like '% __' limit ${limit}::int) given) as "twoDigits"`
  return given ?? { ofTried: [], twoDigits: 0 }
}

/** Writes an arrival and its casualties, in the finder's keeping, with plan and checks. */
export async function createAdmission(tx: Tx, entryId: number, admission: Admission): Promise<Admitted> {
  const finderId = await createFinder(tx, admission)
  if (admission.callId !== null && finderId !== null) {
    await tx.call.update({ where: { id: admission.callId }, data: { finderId } })
  }
  const { id: arrivalId } = await tx.arrival.create({
    data: {
      callId: admission.callId,
      at: admission.at,
      foundWords: admission.foundWords,
      latitude: admission.where?.latitude ?? null,
      longitude: admission.where?.longitude ?? null,
      finderId,
    },
    select: { id: true },
  })
  const batchId = admission.isBatch
    ? (await tx.batch.create({ data: { arrivalId }, select: { id: true } })).id
    : null
  const casualtyIds: number[] = []
  for (const [index, reference] of admission.references.entries()) {
    casualtyIds.push(await createCasualty(tx, entryId, admission, { arrivalId, batchId, index, reference }))
  }
  await recordWithFinder(tx, entryId, casualtyIds, admission.at)
  return { arrivalId, casualtyIds }
}

/** Keeps a named place; a constraint may refuse it. */
export async function planHold(tx: Tx, hold: HoldWanted, at: Date): Promise<number> {
  const rows = await tx.$queryRaw<{ id: number }[]>`
    select plan_hold(${hold.casualtyId}::int, ${hold.enclosureId}::int, ${hold.placeNo}::int,
      ${hold.startsAt}::timestamptz, null, ${hold.expectedAt}::timestamptz, ${hold.expiresAt}::timestamptz,
      ${hold.needsIsolation}, null, ${at}::timestamptz) as id`
  return rows[0]?.id ?? 0
}

type CasualtyRow = {
  readonly arrivalId: number
  readonly batchId: number | null
  readonly index: number
  readonly reference: string
}

/** The animal with all that hangs on it, in one statement: a brood of twelve is not to wait for eighty. */
async function createCasualty(
  tx: Tx,
  entryId: number,
  admission: Admission,
  { arrivalId, batchId, index, reference }: CasualtyRow,
): Promise<number> {
  const { species, age, at, leave, planIds, because } = admission
  const memberNo = batchId === null ? null : index + 1
  const [made] = await tx.$queryRaw<{ id: number }[]>`
    with animal as (
      insert into casualty (reference, given_on, arrival_id, batch_id, member_no, species_slug, age, company_slug,
                            is_alone, is_disease_suspect, authority_leave_at, authority_leave_words)
      values (${reference}, ${dateOfDay(admission.today)}::date, ${arrivalId}::int, ${batchId}::int, ${memberNo}::int,
              ${species}, ${age}, ${admission.company}, ${admission.isAlone}, ${admission.isDiseaseSuspect},
              ${leave?.at ?? null}::timestamptz, ${leave?.words ?? null}::text)
      returning id),
    identified as (
      insert into identification (entry_id, casualty_id, species_slug, age)
      select ${entryId}::int, id, ${species}::text, ${age}::text from animal),
    found as (
      insert into finding (entry_id, casualty_id, condition_slug, severity, noted_at)
      select ${entryId}::int, animal.id, f.condition, f.severity, ${at}::timestamptz
        from animal, jsonb_to_recordset(${findingRows(admission)}::jsonb) as f (condition text, severity text)),
    plan as (
      insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
      select ${entryId}::int, id, 1, ${[...planIds]}::text[], ${because}::text from animal
      returning id),
    planned as (
      insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, housing_also, features, centre_id,
                                  estimate, marks, waits_for)
      select plan.id, s.stage_no, s.stage, s.housing_type, s.housing_also, s.features, s.centre_id, s.estimate, s.marks,
             s.waits_for
        from plan, jsonb_populate_recordset(null::casualty_stage, ${stageRows(admission)}::jsonb) as s),
    checked as (
      insert into check_due (casualty_id, entry_id, stage_no, check_slug, what, due_on, counted_from, anchor,
                             interval_days, required_for, who, mark)
      select animal.id, ${entryId}::int, c.stage_no, c.check_slug, c.what, c.due_on, c.counted_from, c.anchor,
             c.interval_days, c.required_for, c.who, c.mark
        from animal, jsonb_populate_recordset(null::check_due, ${checkRows(admission)}::jsonb) as c)
    select id from animal`
  if (made === undefined) throw new Error(`casualty ${reference} needs a row, got none`)
  return made.id
}

function findingRows({ findings }: Admission): string {
  return JSON.stringify(findings.map(one => ({ ...one, severity: one.severity ?? 'any' })))
}

function stageRows({ stages }: Admission): string {
  return JSON.stringify(
    stages.map(({ stage, housing: [first, ...also], centreId }, at) => ({
      stage_no: at + 1,
      stage: stage.stage,
      housing_type: first ?? stage.housing,
      housing_also: also,
      features: stage.features,
      centre_id: centreId,
      estimate: stage.estimate,
      marks: stage.marks,
      waits_for: stage.stateGate,
    })),
  )
}

function checkRows({ checks }: Admission): string {
  return JSON.stringify(
    checks.map(check => ({
      stage_no: check.stageNo,
      check_slug: check.check,
      what: check.what,
      due_on: dateOrNull(check.dueOn),
      counted_from: dateOrNull(check.countedFrom),
      anchor: check.anchor,
      interval_days: check.intervalDays,
      required_for: check.requiredFor,
      who: check.who,
      mark: check.mark,
    })),
  )
}

async function createFinder(tx: Tx, { finder }: Admission): Promise<number | null> {
  if (finder === null) return null
  const { id } = await tx.finder.create({
    data: {
      name: finder.name === '' ? null : finder.name,
      phone: finder.phone === '' ? null : finder.phone,
      expiresOn: new Date(dateOfDay(finder.expiresOn)),
    },
    select: { id: true },
  })
  return id
}

async function recordWithFinder(
  tx: Tx,
  entryId: number,
  casualtyIds: readonly number[],
  at: Date,
): Promise<void> {
  const facts = casualtyIds.map(casualtyId => ({
    entry_id: entryId,
    casualty_id: casualtyId,
    since: at.toISOString(),
    keeper: 'finder',
  }))
  await tx.$queryRaw`select record_keepings(${JSON.stringify(facts)}::jsonb, ${at}::timestamptz)::text`
}

function dateOrNull(day: DayNumber | null): string | null {
  return day === null ? null : dateOfDay(day)
}
