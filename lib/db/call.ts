/**
 * Calls: opened, kept as typed, parked, closed; the call-backs promised on them.
 * Promise: a sheet is written only over the version it was read at, so nobody's words are lost; a closed call is not
 * written at all. Facts are read through the sheet's schema, whatever an older program wrote.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { type CallFacts, callFacts, emptyCallFacts } from '#lib/domain/call-facts.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { type Db, db } from './client.ts'

export type CallState = 'open' | 'parked' | 'closed'

export type Call = {
  readonly id: number
  readonly openedAt: Date
  readonly openedBy: string | null
  readonly state: CallState
  readonly closedAt: Date | null
  readonly facts: CallFacts
  readonly version: number
  /** Since when and by whom it is put aside; null while it is not. */
  readonly parkedAt: Date | null
  readonly parkedBy: string | null
  /** Who wrote a field of the sheet last, by number. */
  readonly changedBy: ChangedBy
}

export type ChangedBy = Readonly<Record<string, number>>

export type CallBack = {
  readonly id: number
  readonly callId: number
  readonly dueAt: Date
  readonly owner: string
  readonly what: string
  readonly call: Pick<CallFacts, 'animalTyped' | 'whereTyped' | 'wrongTyped'>
}

/** A call that is open or closed is not put aside. */
const NOT_ASIDE = { parkedAt: null, parkedBy: null } as const

const personNumbers = z.record(z.string(), z.int())

export const selected = {
  id: true,
  openedAt: true,
  state: true,
  closedAt: true,
  facts: true,
  version: true,
  openedByOf: { select: { name: true } },
  parkedAt: true,
  parkedByOf: { select: { name: true } },
  changedBy: true,
} as const

type Row = {
  readonly id: number
  readonly openedAt: Date
  readonly state: string
  readonly closedAt: Date | null
  readonly facts: unknown
  readonly version: number
  readonly openedByOf: { readonly name: string } | null
  readonly parkedAt: Date | null
  readonly parkedByOf: { readonly name: string } | null
  readonly changedBy: unknown
}

/** A new, empty call. */
export async function createCall(grant: Grant<'call.take'>, at: Date): Promise<number> {
  const { id } = await db().call.create({
    data: { openedAt: at, openedBy: grant.actor.personId, facts: emptyCallFacts() },
    select: { id: true },
  })
  return id
}

/** One call; Failure 'not-found' otherwise. */
export async function getCall(_grant: Grant<'call.read'>, id: number): Promise<Call> {
  const row = await db().call.findUnique({ where: { id }, select: selected })
  if (row === null) throw new Failure('not-found')
  return callOf(row)
}

/** Calls that wait for somebody, the oldest first. */
export async function listOpenCalls(_grant: Grant<'call.read'>): Promise<Call[]> {
  const rows = await db().call.findMany({
    where: { state: { not: 'closed' } },
    select: selected,
    orderBy: [{ openedAt: 'asc' }, { id: 'asc' }],
  })
  return rows.map(callOf)
}

/** The calls closed last, the newest first. */
export async function listClosedCalls(_grant: Grant<'call.read'>, limit: number): Promise<Call[]> {
  const rows = await db().call.findMany({
    where: { state: 'closed' },
    select: selected,
    orderBy: [{ closedAt: 'desc' }, { id: 'desc' }],
    take: limit,
  })
  return rows.map(callOf)
}

/** Call-backs promised and not yet made, the soonest first. */
export async function listCallBacks(_grant: Grant<'call.read'>): Promise<CallBack[]> {
  const rows = await db().callBack.findMany({
    where: { doneAt: null },
    select: {
      id: true,
      callId: true,
      dueAt: true,
      what: true,
      owner: { select: { name: true } },
      call: { select: { facts: true } },
    },
    orderBy: [{ dueAt: 'asc' }, { id: 'asc' }],
  })
  return rows.map(({ owner, call, ...row }) => ({ ...row, owner: owner.name, call: readFacts(call.facts) }))
}

/** Keeps a sheet as typed; gives the new version. Failure 'conflict' when it was written or closed since. */
export async function saveFacts(
  _grant: Grant<'call.take'>,
  id: number,
  version: number,
  { facts, changedBy }: Pick<Call, 'facts' | 'changedBy'>,
): Promise<number> {
  const { count } = await db().call.updateMany({
    where: { id, version, state: { not: 'closed' } },
    data: { facts, changedBy, version: { increment: 1 }, state: 'open', ...NOT_ASIDE },
  })
  if (count === 0) throw new Failure('conflict', { rule: 'call-changed-since' })
  return version + 1
}

/** Puts a call aside with everything typed, with or without a promise to ring again. */
export async function parkCall(
  grant: Grant<'call.take'>,
  id: number,
  at: Date,
  promised?: PromisedCallBack,
): Promise<void> {
  await db().$transaction(async tx => {
    if (promised !== undefined) await createCallBack(grant, promised, tx)
    await parkCallIn(tx, id, { at, by: grant.actor.personId })
  })
}

/** The same inside the transaction that answered the call for the time being. */
export async function parkCallIn(
  tx: Db,
  id: number,
  { at, by }: { readonly at: Date; readonly by: number | null },
): Promise<void> {
  const { count } = await tx.call.updateMany({
    where: { id, state: { not: 'closed' } },
    data: { state: 'parked', parkedAt: at, parkedBy: by, version: { increment: 1 } },
  })
  if (count === 0) throw new Failure('conflict', { rule: 'call-closed-already' })
}

export type PromisedCallBack = {
  readonly callId: number
  readonly dueAt: Date
  readonly ownerId: number
  readonly what: string
}

/** A promise to ring again, with an owner. */
export async function createCallBack(
  _grant: Grant<'call.take'>,
  promised: PromisedCallBack,
  tx: Db = db(),
): Promise<void> {
  await tx.callBack.create({ data: promised })
}

/** A call-back that was made, with what was said; Failure 'conflict' when somebody rang a moment ago. */
export async function markCalledBack(
  grant: Grant<'call.take'>,
  id: number,
  { at, said }: { readonly at: Date; readonly said: string },
): Promise<void> {
  const { count } = await db().callBack.updateMany({
    where: { id, doneAt: null },
    data: { doneAt: at, doneBy: grant.actor.personId, said: said === '' ? null : said },
  })
  if (count === 0) throw new Failure('conflict', { rule: 'rang-back-already' })
}

/** What was said when somebody rang back on a call, the newest last. */
export async function listRungBack(_grant: Grant<'call.read'>, callId: number): Promise<RungBack[]> {
  const rows = await db().callBack.findMany({
    where: { callId, doneAt: { not: null } },
    select: { id: true, doneAt: true, what: true, said: true, doneByOf: { select: { name: true } } },
    orderBy: [{ doneAt: 'asc' }, { id: 'asc' }],
  })
  return rows.flatMap(({ doneAt, doneByOf, ...row }) =>
    doneAt === null ? [] : [{ ...row, at: doneAt, by: doneByOf?.name ?? null }],
  )
}

export type RungBack = {
  readonly id: number
  readonly at: Date
  readonly by: string | null
  readonly what: string
  readonly said: string | null
}

/** Closes a call inside the transaction that answered it; Failure 'conflict' when somebody did so a moment ago. */
export async function closeCall(tx: Db, id: number, at: Date): Promise<void> {
  const { count } = await tx.call.updateMany({
    where: { id, state: { not: 'closed' } },
    data: { state: 'closed', closedAt: at, version: { increment: 1 }, ...NOT_ASIDE },
  })
  if (count === 0) throw new Failure('conflict', { rule: 'call-closed-already' })
}

/** One call as it is selected here, for the other files about calls. */
export function callOf({ openedByOf, parkedByOf, state, facts, changedBy, ...row }: Row): Call {
  return {
    ...row,
    openedBy: openedByOf?.name ?? null,
    parkedBy: parkedByOf?.name ?? null,
    changedBy: personNumbers.safeParse(changedBy).data ?? {},
    state: state === 'open' || state === 'parked' ? state : 'closed',
    facts: readFacts(facts),
  }
}

/** What no longer fits the sheet's schema is left out field by field, never the whole sheet. */
function readFacts(stored: unknown): CallFacts {
  const read = callFacts.safeParse(stored)
  if (read.success) return read.data
  const given = typeof stored === 'object' && stored !== null ? Object.entries(stored) : []
  const fitting = given.filter(([field, value]) => callFacts.partial().safeParse({ [field]: value }).success)
  return callFacts.parse(Object.fromEntries(fitting))
}
