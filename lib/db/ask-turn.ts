/**
 * What an ask moves when it goes on: whose time ran out, the places that rested on it, the plan that names its centre,
 * the decision whose options are asked in turn.
 * Promise: a due ask is claimed by one process, the others pass it by. Writes run inside an entry, under the locks of
 * ask.ts.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { CentreContact } from '#lib/domain/centre-contact.ts'
import type { RankedOptions } from '#lib/domain/option.ts'
import type { Age } from '#lib/domain/species.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'
import { rankedKept } from './decision.ts'
import type { EntryTx } from './entry.ts'

type Tx = Prisma.TransactionClient

/** Whether anything is due; asked before an entry is opened for it. */
export async function hasDueAsk(_grant: Grant<'system.run'>, at: Date): Promise<boolean> {
  const found = await db().ask.findFirst({
    where: { state: 'put', lapsesAt: { lte: at } },
    select: { id: true },
  })
  return found !== null
}

/** Takes hold of one due ask; undefined when every one is in other hands. */
export async function claimDueAsk({ tx }: EntryTx, at: Date): Promise<number | undefined> {
  const [row] = await tx.$queryRaw<{ id: number | null }[]>`select claim_due_ask(${at}::timestamptz) as id`
  return row?.id ?? undefined
}

/** Ends the places kept at a centre: they ran out with its silence, or it gave them up with its no. */
export async function endHoldsAt(
  tx: Tx,
  casualtyIds: readonly number[],
  centreId: number,
  state: 'expired' | 'given-up',
  at: Date,
): Promise<number> {
  const [row] = await tx.$queryRaw<{ count: number }[]>`
    select end_holds_at(${[...casualtyIds]}::int[], ${centreId}::int, ${state}::text, ${at}::timestamptz) as count`
  return row?.count ?? 0
}

/** Where places are kept for some casualties. */
export async function listHeldEnclosures(tx: Tx, casualtyIds: readonly number[]): Promise<number[]> {
  const rows = await tx.claim.findMany({
    where: { casualtyId: { in: [...casualtyIds] }, kind: 'hold', state: 'live' },
    select: { enclosureId: true },
  })
  return rows.map(({ enclosureId }) => enclosureId)
}

export type PlaceWanted = {
  readonly casualtyId: number
  /** Best first. */
  readonly enclosureIds: readonly number[]
  readonly startsAt: Date
  readonly expectedAt: Date
  readonly expiresAt: Date
  readonly needsIsolation: boolean
}

/** Keeps a place in the first enclosure whose rules let it; null where every one refuses. */
export async function holdFirstFree(tx: Tx, wanted: PlaceWanted, at: Date): Promise<number | null> {
  const [row] = await tx.$queryRaw<{ id: number | null }[]>`
    select hold_first_free(${wanted.casualtyId}::int, ${[...wanted.enclosureIds]}::int[],
      ${wanted.startsAt}::timestamptz, ${wanted.expectedAt}::timestamptz, ${wanted.expiresAt}::timestamptz,
      ${wanted.needsIsolation}::boolean, ${at}::timestamptz) as id`
  return row?.id ?? null
}

/** The places kept at a centre wait for a later arrival. Gives whose they are. */
export async function delayHoldsAt(
  tx: Tx,
  casualtyIds: readonly number[],
  centreId: number,
  { expectedAt, expiresAt }: { readonly expectedAt: Date; readonly expiresAt: Date },
): Promise<number[]> {
  const rows = await tx.$queryRaw<{ id: number }[]>`
    update claim c set expected_at = greatest(c.expected_at, ${expectedAt}::timestamptz),
                       expires_at = greatest(c.expires_at, ${expiresAt}::timestamptz)
      from enclosure e
     where e.id = c.enclosure_id and e.centre_id = ${centreId}::int and c.kind = 'hold' and c.state = 'live'
       and c.casualty_id = any (${[...casualtyIds]}::int[])
    returning c.casualty_id as id`
  return rows.map(({ id }) => id)
}

/** A new version of a plan with other centres, one a stage; estimates and marks stay. The one before stays readable. */
export async function moveToCentres(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  because: string,
  centreIds: readonly number[],
): Promise<void> {
  const before = await tx.casualtyPlan.findFirst({
    where: { casualtyId },
    orderBy: { versionNo: 'desc' },
    select: { id: true, versionNo: true, planIds: true },
  })
  if (before === null) return
  const { id } = await tx.casualtyPlan.create({
    data: { entryId, casualtyId, versionNo: before.versionNo + 1, planIds: before.planIds, because },
    select: { id: true },
  })
  await tx.$queryRaw`
    with copied as (
      insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, housing_also, features, centre_id, estimate, marks)
      select ${id}::int, stage_no, stage, housing_type, housing_also, features,
             coalesce((${[...centreIds]}::int[])[stage_no], centre_id), estimate, marks
        from casualty_stage where casualty_plan_id = ${before.id}::int
      returning 1)
    select count(*)::int from copied`
}

export type DecidedTurn = {
  readonly callId: number
  readonly takenKey: string
  readonly decidedBy: number | null
  readonly ranked: RankedOptions
}

/** The decision whose options are asked in turn. */
export async function getTurn(tx: Tx, decisionId: number): Promise<DecidedTurn> {
  const row = await tx.decision.findUnique({
    where: { id: decisionId },
    select: { callId: true, takenKey: true, decidedBy: true, options: true },
  })
  if (row === null) throw new Failure('not-found')
  return {
    callId: row.callId,
    takenKey: row.takenKey,
    decidedBy: row.decidedBy,
    ranked: rankedKept.parse(row.options),
  }
}

/** Who answers for a centre, in order. */
export async function listContactsOf(tx: Tx, centreId: number): Promise<CentreContact[]> {
  return tx.centreContact.findMany({
    where: { centreId },
    orderBy: { position: 'asc' },
    select: { name: true, phone: true, email: true, fromMinute: true, untilMinute: true },
  })
}

/** Which of several centres a movement stop keeps a casualty from. */
export async function listStopped(
  tx: Tx,
  casualtyId: number,
  centreIds: readonly number[],
  at: Date,
): Promise<number[]> {
  const rows = await tx.$queryRaw<{ id: number }[]>`
    select c.id from centre c
     where c.id = any (${[...centreIds]}::int[])
       and stop_against(${casualtyId}::int, c.id, ${at}::timestamptz, null, false) is not null`
  return rows.map(({ id }) => id)
}

/** What decides how often a casualty is fed. */
export async function getFeeding(tx: Tx, casualtyId: number): Promise<{ group: string; age: Age }> {
  const { age, species } = await tx.casualty.findUniqueOrThrow({
    where: { id: casualtyId },
    select: { age: true, species: { select: { groupSlug: true } } },
  })
  return { group: species.groupSlug, age: age as Age }
}

/** A promise to ring the finder, owned by whoever decided; nothing where nobody did. */
export async function promiseToRing(
  tx: Tx,
  promise: {
    readonly callId: number
    readonly ownerId: number | null
    readonly dueAt: Date
    readonly what: string
  },
): Promise<void> {
  const { ownerId } = promise
  if (ownerId !== null) await tx.callBack.create({ data: { ...promise, ownerId } })
}
