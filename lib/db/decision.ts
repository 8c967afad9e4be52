/**
 * What was decided on a call: the options that were shown, what they were computed from, which was taken; and demand
 * that could not be met, so that a refused season does not lower the forecast.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import type { OptionKind, RankedOptions } from '#lib/domain/option.ts'
import type { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'

type Tx = Prisma.TransactionClient

const KIND_KEPT = {
  admit: 'admit',
  'admit and move': 'admit-and-move',
  vet: 'vet',
  'keep till morning': 'keep-till-morning',
  redirect: 'redirect',
  advice: 'advice',
  'examine outside': 'outside-examination',
  report: 'report',
} as const satisfies Record<OptionKind, string>

export type DecisionTaken = {
  readonly callId: number
  readonly arrivalId: number | null
  readonly at: Date
  readonly decidedBy: number | null
  readonly kind: OptionKind
  readonly takenKey: string
  readonly ranked: RankedOptions
  readonly inputs: object
  readonly reason: string | null
}

/** Keeps a decision with everything it rested on. */
export async function createDecision(tx: Tx, taken: DecisionTaken): Promise<number> {
  const { id } = await tx.decision.create({
    data: {
      callId: taken.callId,
      arrivalId: taken.arrivalId,
      at: taken.at,
      decidedBy: taken.decidedBy,
      kind: KIND_KEPT[taken.kind],
      takenKey: taken.takenKey,
      options: json(taken.ranked),
      inputs: json(taken.inputs),
      reason: taken.reason,
    },
    select: { id: true },
  })
  return id
}

export type UnmetDemand = {
  readonly callId: number
  readonly at: Date
  readonly kind: 'redirect' | 'advice' | 'keep-till-morning'
  readonly group: string
  readonly animals: number
  readonly reason: string
}

/** Counts animals that wanted a place and got none tonight. */
export async function createUnmetDemand(tx: Tx, unmet: UnmetDemand): Promise<void> {
  const { group, ...data } = unmet
  await tx.unmetDemand.create({ data: { ...data, groupSlug: group } })
}

/** Plain data as the column keeps it: dates and typed arrays become what JSON has. */
function json(value: object): Prisma.InputJsonValue {
  return JSON.parse(
    JSON.stringify(value, (_, each) => (ArrayBuffer.isView(each) ? Array.from(Object.values(each)) : each)),
  )
}

export type DecisionKept = {
  readonly at: Date
  readonly by: string | null
  readonly takenKey: string
  readonly ranked: RankedOptions
  readonly references: readonly string[]
  readonly reason: string | null
}

/** The newest decision on a call. Its options are shown as they were kept, by this program's own hand. */
export async function findDecision(
  _grant: Grant<'call.read'>,
  callId: number,
): Promise<DecisionKept | undefined> {
  const row = await db().decision.findFirst({
    where: { callId },
    orderBy: { id: 'desc' },
    select: {
      at: true,
      takenKey: true,
      options: true,
      reason: true,
      decidedByOf: { select: { name: true } },
      arrival: { select: { casualtyByArrivalId: { select: { reference: true }, orderBy: { id: 'asc' } } } },
    },
  })
  if (row === null) return undefined
  return {
    at: row.at,
    by: row.decidedByOf?.name ?? null,
    takenKey: row.takenKey,
    ranked: rankedKept.parse(row.options),
    references: row.arrival?.casualtyByArrivalId.map(one => one.reference) ?? [],
    reason: row.reason,
  }
}

/** What createDecision wrote: the shape is ours, so only its frame is checked. */
export const rankedKept = z.custom<RankedOptions>(
  kept => typeof kept === 'object' && kept !== null && 'options' in kept && Array.isArray(kept.options),
)
