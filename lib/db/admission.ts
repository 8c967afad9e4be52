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

async function createCasualty(
  tx: Tx,
  entryId: number,
  admission: Admission,
  { arrivalId, batchId, index, reference }: CasualtyRow,
): Promise<number> {
  const { id: casualtyId } = await tx.casualty.create({
    data: {
      reference,
      givenOn: new Date(dateOfDay(admission.today)),
      arrivalId,
      batchId,
      memberNo: batchId === null ? null : index + 1,
      speciesSlug: admission.species,
      age: admission.age,
      companySlug: admission.company,
      isAlone: admission.isAlone,
      isDiseaseSuspect: admission.isDiseaseSuspect,
      authorityLeaveAt: admission.leave?.at ?? null,
      authorityLeaveWords: admission.leave?.words ?? null,
    },
    select: { id: true },
  })
  await tx.identification.create({
    data: { entryId, casualtyId, speciesSlug: admission.species, age: admission.age },
  })
  await tx.finding.createMany({
    data: admission.findings.map(({ condition, severity }) => ({
      entryId,
      casualtyId,
      conditionSlug: condition,
      severity: severity ?? 'any',
      notedAt: admission.at,
    })),
  })
  await createPlan(tx, entryId, casualtyId, admission)
  await tx.checkDue.createMany({
    data: admission.checks.map(check => ({
      casualtyId,
      entryId,
      stageNo: check.stageNo,
      checkSlug: check.check,
      what: check.what,
      dueOn: dateOrNull(check.dueOn),
      countedFrom: dateOrNull(check.countedFrom),
      anchor: check.anchor,
      intervalDays: check.intervalDays,
      requiredFor: check.requiredFor,
      who: check.who,
      mark: check.mark,
    })),
  })
  return casualtyId
}

async function createPlan(tx: Tx, entryId: number, casualtyId: number, admission: Admission): Promise<void> {
  const { id } = await tx.casualtyPlan.create({
    data: { entryId, casualtyId, versionNo: 1, planIds: [...admission.planIds], because: admission.because },
    select: { id: true },
  })
  await tx.casualtyStage.createMany({
    data: admission.stages.map(({ stage, housing: [first, ...also], centreId }, at) => ({
      casualtyPlanId: id,
      stageNo: at + 1,
      stage: stage.stage,
      housingType: first ?? stage.housing,
      housingAlso: also,
      features: [...stage.features],
      centreId,
      estimate: stage.estimate,
      marks: stage.marks,
      waitsFor: stage.stateGate,
    })),
  })
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

function dateOrNull(day: DayNumber | null): Date | null {
  return day === null ? null : new Date(dateOfDay(day))
}
