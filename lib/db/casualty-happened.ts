/**
 * What happened to one casualty: every fact, with who entered it and when, whatever has replaced it since.
 * Promise: nothing is left out and nothing merged; what was corrected or taken back says so. Instants are UTC.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { type StageEstimate, stageEstimate } from '#lib/domain/estimate.ts'
import { CARE_STAGES, type CareStage, HOUSING_TYPES, type HousingType } from '#lib/domain/housing.ts'
import type { RankedOptions } from '#lib/domain/option.ts'
import { OUTCOMES, type Outcome } from '#lib/domain/outcome.ts'
import type { Span } from '#lib/domain/precision.ts'
import type { Keeper } from './casualty-list.ts'
import { db } from './client.ts'
import { type Entered, entered, enteredOf, spanOfRow } from './entered.ts'

type Grants = Grant<'casualty.read'>

export type KeepingRow = {
  readonly id: number
  readonly entryId: number
  readonly since: Date
  readonly within: Span | null
  readonly keeper: Keeper
  readonly keeperName: string | null
  readonly centreId: number | null
  readonly centre: string | null
  readonly enclosure: string | null
  readonly outcome: Outcome | null
  readonly overrideReason: string | null
  /** A newer entry corrected it or took it back. */
  readonly isReplaced: boolean
  readonly isVoid: boolean
  readonly supersedes: number | null
  readonly entered: Entered
}

/** Where it was and who had it. */
export async function listKeepings(_grant: Grants, casualtyId: number): Promise<KeepingRow[]> {
  const rows = await db().keeping.findMany({
    where: { casualtyId },
    orderBy: [{ since: 'asc' }, { id: 'asc' }],
    include: {
      driver: { select: { name: true } },
      practice: { select: { name: true } },
      centre: { select: { name: true } },
      enclosure: { select: { name: true } },
      keepingBySupersedes: { select: { id: true } },
      entry: entered,
    },
  })
  return rows.map(row => ({
    id: row.id,
    entryId: row.entryId,
    since: row.since,
    within: spanOfRow(row.sinceEarliest, row.sinceLatest),
    keeper: keeper.parse(row.keeper),
    keeperName: row.practice?.name ?? row.driver?.name ?? null,
    centreId: row.centreId,
    centre: row.centre?.name ?? null,
    enclosure: row.enclosure?.name ?? null,
    outcome: outcome.parse(row.outcome),
    overrideReason: row.overrideReason,
    isReplaced: row.keepingBySupersedes !== null,
    isVoid: row.isVoid,
    supersedes: row.supersedes,
    entered: enteredOf(row.entry),
  }))
}

const keeper = z.enum(['finder', 'driver', 'practice', 'centre', 'nobody'])
const outcome = z.enum(OUTCOMES).nullable()

export type StageFactRow = {
  readonly id: number
  readonly stageNo: number
  readonly kind: 'began' | 'ready'
  readonly at: Date
  readonly within: Span | null
  readonly entered: Entered
}

/** When stages began and were ready to be left, as it is known now. */
export async function listStageFacts(_grant: Grants, casualtyId: number): Promise<StageFactRow[]> {
  const rows = await db().stageFact.findMany({
    where: { casualtyId, isVoid: false, stageFactBySupersedes: { is: null } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    include: { entry: entered },
  })
  return rows.map(row => ({
    id: row.id,
    stageNo: row.stageNo,
    kind: row.kind === 'ready' ? 'ready' : 'began',
    at: row.at,
    within: spanOfRow(row.atEarliest, row.atLatest),
    entered: enteredOf(row.entry),
  }))
}

export type WeightRow = {
  readonly id: number
  readonly at: Date
  readonly within: Span | null
  readonly grams: number
  /** Somebody was asked and said that it is right. */
  readonly isSure: boolean
  readonly isTakenBack: boolean
  readonly entered: Entered
}

/** Every weight, those taken back among them. */
export async function listWeights(_grant: Grants, casualtyId: number): Promise<WeightRow[]> {
  const rows = await db().weight.findMany({
    where: { casualtyId, isVoid: false, supersedes: null },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    include: { entry: entered, weightBySupersedes: { select: { isVoid: true, isSure: true } } },
  })
  return rows.map(({ weightBySupersedes: later, ...row }) => ({
    id: row.id,
    at: row.at,
    within: spanOfRow(row.atEarliest, row.atLatest),
    grams: row.grams,
    isSure: later?.isSure ?? false,
    isTakenBack: later?.isVoid ?? false,
    entered: enteredOf(row.entry),
  }))
}

export type NoteRow = {
  readonly at: Date
  readonly within: Span | null
  readonly by: string | null
  readonly words: string | null
  /** When it was written down; notes from before that was kept have the time of the event alone. */
  readonly enteredAt: Date
}

/** Notes; one that was erased is there without its words. */
export async function listNotes(_grant: Grants, casualtyId: number): Promise<NoteRow[]> {
  const rows = await db().note.findMany({
    where: { casualtyId },
    orderBy: { at: 'asc' },
    include: { writtenByOf: { select: { name: true } }, entry: { select: { enteredAt: true } } },
  })
  return rows.map(row => ({
    at: row.at,
    within: spanOfRow(row.atEarliest, row.atLatest),
    words: row.words,
    by: row.writtenByOf?.name ?? null,
    enteredAt: row.entry?.enteredAt ?? row.at,
  }))
}

export type PlanStageRow = {
  readonly no: number
  readonly stage: CareStage
  readonly housing: HousingType
  readonly centreId: number | null
  readonly estimate: StageEstimate
  readonly lengthsMark: string | null
  /** Where its odds come from, and when those end that do not go on. */
  readonly sharesMark: string | null
  readonly exitTimesMark: string | null
  /** Moult, migration, a weight: what it waits for beside time. */
  readonly waitsFor: string | null
}
export type PlanRow = {
  readonly versionNo: number
  readonly because: string
  readonly entered: Entered
  readonly stages: readonly PlanStageRow[]
}

const mark = z.string().nullable().optional()
const marks = z.object({ lengths: mark, shares: mark, exitTimes: mark })

/** Every version of its plan, the first first. */
export async function listPlans(_grant: Grants, casualtyId: number): Promise<PlanRow[]> {
  const rows = await db().casualtyPlan.findMany({
    where: { casualtyId },
    orderBy: { versionNo: 'asc' },
    include: { entry: entered, casualtyStageByCasualtyPlanId: { orderBy: { stageNo: 'asc' } } },
  })
  return rows.map(row => ({
    versionNo: row.versionNo,
    because: row.because,
    entered: enteredOf(row.entry),
    stages: row.casualtyStageByCasualtyPlanId.map(stage => {
      const { lengths, shares, exitTimes } = marks.parse(stage.marks)
      return {
        no: stage.stageNo,
        stage: z.enum(CARE_STAGES).parse(stage.stage),
        housing: z.enum(HOUSING_TYPES).parse(stage.housingType),
        centreId: stage.centreId,
        estimate: stageEstimate.parse(stage.estimate),
        lengthsMark: lengths ?? null,
        sharesMark: shares ?? null,
        exitTimesMark: exitTimes ?? null,
        waitsFor: stage.waitsFor,
      }
    }),
  }))
}

export type IdentifiedRow = {
  readonly id: number
  readonly species: string
  readonly age: string
  readonly isReplaced: boolean
  readonly entered: Entered
}

/** What it was said to be, the first first. */
export async function listIdentified(_grant: Grants, casualtyId: number): Promise<IdentifiedRow[]> {
  const rows = await db().identification.findMany({
    where: { casualtyId },
    orderBy: { id: 'asc' },
    include: {
      species: { select: { commonName: true } },
      identificationBySupersedes: { select: { id: true } },
      entry: entered,
    },
  })
  return rows.map(row => ({
    id: row.id,
    species: row.species.commonName,
    age: row.age,
    isReplaced: row.identificationBySupersedes !== null,
    entered: enteredOf(row.entry),
  }))
}

export type DecisionRow = {
  readonly id: number
  readonly at: Date
  readonly by: string | null
  readonly takenKey: string
  readonly reason: string | null
  readonly ranked: RankedOptions
}

/** How the call that brought it was answered, with everything that was shown. */
export async function listDecisions(_grant: Grants, arrivalId: number): Promise<DecisionRow[]> {
  const rows = await db().decision.findMany({
    where: { arrivalId },
    orderBy: { id: 'asc' },
    include: { decidedByOf: { select: { name: true } } },
  })
  return rows.map(row => ({
    id: row.id,
    at: row.at,
    by: row.decidedByOf?.name ?? null,
    takenKey: row.takenKey,
    reason: row.reason,
    ranked: rankedKept.parse(row.options),
  }))
}

/** What taking an option wrote: the shape is ours, so only its frame is checked. */
const rankedKept = z.custom<RankedOptions>(
  kept => typeof kept === 'object' && kept !== null && 'options' in kept && Array.isArray(kept.options),
)
