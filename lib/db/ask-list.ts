/**
 * Asks as they are shown: who is to be rung until when, how they were answered, what they are about.
 * Promise: read as recorded; whoever was rung before stands in order. Those that wait come first due first.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type AskShown, type AskState, askShown } from '#lib/domain/escalation.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { stateOf } from './ask.ts'
import { db } from './client.ts'

export type AskTried = {
  readonly name: string
  readonly phone: string
  readonly email: string | null
  readonly putAt: Date
  readonly lapsesAt: Date
}

export type AskLine = {
  readonly id: number
  readonly state: AskState
  readonly shown: AskShown
  readonly to: {
    readonly kind: 'centre' | 'practice'
    readonly id: number
    readonly name: string
    readonly phone: string
  }
  /** Who was rung, the first first; the last one is rung now while the ask waits. */
  readonly tries: readonly AskTried[]
  readonly callId: number | null
  readonly reference: string
  readonly species: string
  /** How many came with it, itself among them, where a centre is asked. */
  readonly animals: number
  readonly what: string | null
  readonly putAt: Date | null
  readonly lapsesAt: Date | null
  readonly seenAt: Date | null
  readonly answeredAt: Date | null
  readonly answeredBy: string | null
  readonly reason: string | null
  readonly comesAt: Date | null
}

const LATELY_MAX = 12
const LATELY_HOURS = 12
const MS_PER_HOUR = 3_600_000

const included = {
  centre: { select: { name: true, phone: true } },
  practice: { select: { name: true, phone: true } },
  referral: { select: { what: true } },
  askTryByAskId: {
    orderBy: { tryNo: 'asc' },
    select: { name: true, phone: true, email: true, putAt: true, lapsesAt: true },
  },
  casualty: {
    select: {
      reference: true,
      species: { select: { commonName: true } },
      arrival: { select: { _count: { select: { casualtyByArrivalId: true } } } },
    },
  },
} as const

/** Asks that wait for an answer at an instant, those due first. */
export async function listOpenAsks(_grant: Grant<'call.read'>, now: Date): Promise<AskLine[]> {
  const rows = await db().ask.findMany({
    where: { state: 'put', OR: [{ putAt: null }, { putAt: { lte: now } }] },
    include: included,
    orderBy: [{ lapsesAt: 'asc' }, { id: 'asc' }],
  })
  return rows.map(lineOf)
}

/** Asks that ended within the last hours, the newest first. */
export async function listAsksLately(_grant: Grant<'call.read'>, now: Date): Promise<AskLine[]> {
  const since = new Date(now.getTime() - LATELY_HOURS * MS_PER_HOUR)
  const rows = await db().ask.findMany({
    where: {
      state: { notIn: ['put', 'written'] },
      OR: [{ answeredAt: { gte: since } }, { lapsesAt: { gte: since } }],
    },
    include: included,
    orderBy: [{ putAt: 'desc' }, { id: 'desc' }],
    take: LATELY_MAX,
  })
  return rows.map(lineOf)
}

/** Asks of one call, in the order in which they were put. */
export async function listAsksOfCall(_grant: Grant<'call.read'>, callId: number): Promise<AskLine[]> {
  const rows = await db().ask.findMany({ where: { callId }, include: included, orderBy: { id: 'asc' } })
  return rows.map(lineOf)
}

/** Asks about an animal, or about those it came with where a centre was asked. */
export async function listAsksOfCasualty(
  _grant: Grant<'casualty.read'>,
  casualtyId: number,
): Promise<AskLine[]> {
  const rows = await db().ask.findMany({
    where: {
      OR: [
        { casualtyId },
        {
          centreId: { not: null },
          casualty: { arrival: { casualtyByArrivalId: { some: { id: casualtyId } } } },
        },
      ],
    },
    include: included,
    orderBy: { id: 'asc' },
  })
  return rows.map(lineOf)
}

export type AskedOf = {
  readonly casualtyId: number
  /** The practice that was asked; null where it was a centre. */
  readonly practice: string | null
  readonly homeCentreId: number | null
  readonly what: string | null
}

/** What an ask is about. */
export async function getAskedOf(_grant: Grant<'system.run'>, askId: number): Promise<AskedOf> {
  const row = await db().ask.findUnique({
    where: { id: askId },
    select: {
      casualtyId: true,
      practice: { select: { name: true } },
      referral: { select: { homeCentreId: true, what: true } },
    },
  })
  if (row === null) throw new Failure('not-found')
  return {
    casualtyId: row.casualtyId,
    practice: row.practice?.name ?? null,
    homeCentreId: row.referral?.homeCentreId ?? null,
    what: row.referral?.what ?? null,
  }
}

type Row = Awaited<ReturnType<typeof findRow>>

function findRow() {
  return db().ask.findFirstOrThrow({ include: included })
}

function lineOf(row: Row): AskLine {
  const { id, callId, putAt, lapsesAt, seenAt, answeredAt, reason, comesAt } = row
  const state = stateOf(row.state)
  const isCentre = row.centre !== null
  return {
    id,
    callId,
    putAt,
    lapsesAt,
    seenAt,
    answeredAt,
    reason,
    comesAt,
    state,
    shown: askShown(state, seenAt),
    to: {
      kind: isCentre ? 'centre' : 'practice',
      id: row.centreId ?? row.practiceId ?? 0,
      name: row.centre?.name ?? row.practice?.name ?? '',
      phone: row.centre?.phone ?? row.practice?.phone ?? '',
    },
    tries: row.askTryByAskId,
    reference: row.casualty.reference,
    species: row.casualty.species.commonName,
    animals: isCentre ? row.casualty.arrival._count.casualtyByArrivalId : 1,
    what: row.referral?.what ?? null,
    answeredBy: row.answeredByWords,
  }
}
