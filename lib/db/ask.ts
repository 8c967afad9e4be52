/**
 * Asks: a request to one centre or one practice to take a casualty, who of it was rung, and the referral it belongs to.
 * Promise: an ask is changed under the lock of its casualties, then of its referral, then its own; one yes a referral
 * and one a decision, by constraint. Writes run inside an entry.
 */
import 'server-only'
import type { Answerer, AskState } from '#lib/domain/escalation.ts'
import { ASK_STATES } from '#lib/domain/escalation.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { Prisma } from '#prisma/generated/client.ts'

type Tx = Prisma.TransactionClient

export type AskTo = { readonly kind: 'centre' | 'practice'; readonly id: number }

export type NewAsk = {
  readonly to: AskTo
  readonly casualtyId: number
  readonly callId: number | null
  readonly referralId: number | null
  /** The decision whose options are asked in turn, and which of them this is. */
  readonly turn: { readonly decisionId: number; readonly optionKey: string } | null
  readonly putAt: Date
  readonly lapsesAt: Date
  /** Who said yes at once; null while the answer is awaited. */
  readonly agreedBy: string | null
}

/** Writes an ask: put, or agreed to at once. */
export async function createAsk(tx: Tx, ask: NewAsk): Promise<number> {
  const { id } = await tx.ask.create({
    data: {
      casualtyId: ask.casualtyId,
      callId: ask.callId,
      referralId: ask.referralId,
      centreId: ask.to.kind === 'centre' ? ask.to.id : null,
      practiceId: ask.to.kind === 'practice' ? ask.to.id : null,
      decisionId: ask.turn?.decisionId ?? null,
      optionKey: ask.turn?.optionKey ?? null,
      state: ask.agreedBy === null ? 'put' : 'yes',
      putAt: ask.putAt,
      lapsesAt: ask.lapsesAt,
      answeredAt: ask.agreedBy === null ? null : ask.putAt,
      answeredByWords: ask.agreedBy,
    },
    select: { id: true },
  })
  return id
}

/** Somebody is rung for an ask; the ask waits for her answer from now on. */
export async function createTry(
  tx: Tx,
  askId: number,
  tryNo: number,
  { name, phone, email }: Answerer,
  { putAt, lapsesAt }: { readonly putAt: Date; readonly lapsesAt: Date },
): Promise<void> {
  await tx.askTry.create({ data: { askId, tryNo, name, phone, email, putAt, lapsesAt } })
  await tx.ask.update({ where: { id: askId }, data: { lapsesAt } })
}

export type NewReferral = {
  readonly casualtyId: number
  readonly callId: number | null
  readonly what: string
  readonly homeCentreId: number | null
  readonly offers: string
  readonly openedAt: Date
}

export async function createReferral(tx: Tx, referral: NewReferral): Promise<number> {
  const { id } = await tx.referral.create({ data: referral, select: { id: true } })
  return id
}

export type LockedAsk = {
  readonly id: number
  readonly state: AskState
  readonly callId: number | null
  readonly casualtyId: number
  /** All that came with it where a decision asks a centre; of a referral or a move the one animal. */
  readonly casualtyIds: readonly number[]
  readonly referralId: number | null
  readonly decisionId: number | null
  readonly optionKey: string | null
  readonly centreId: number | null
  readonly practiceId: number | null
}

/** An ask as it stands, held with its casualties and its referral until the entry ends. */
export async function lockAsk(tx: Tx, askId: number): Promise<LockedAsk> {
  const casualties = await tx.$queryRaw<{ id: number }[]>`
    select x.id from casualty x
     where x.id in (
       select b.id from ask a join casualty c on c.id = a.casualty_id
         join casualty b on b.id = c.id or (a.decision_id is not null and b.arrival_id = c.arrival_id)
        where a.id = ${askId}::int)
     order by x.id for no key update`
  await tx.$queryRaw`
    select 1 from referral where id = (select referral_id from ask where id = ${askId}::int) for update`
  await tx.$queryRaw`select 1 from ask where id = ${askId}::int for update`
  const row = await tx.ask.findUnique({ where: { id: askId } })
  if (row === null) throw new Failure('not-found')
  const { id, callId, casualtyId, referralId, decisionId, optionKey, centreId, practiceId } = row
  return {
    id,
    state: stateOf(row.state),
    callId,
    casualtyId,
    casualtyIds: casualties.map(one => one.id),
    referralId,
    decisionId,
    optionKey,
    centreId,
    practiceId,
  }
}

/** An ask that still waits. Failure 'conflict' or 'taken' with why it does not. */
export function requireOpen(ask: LockedAsk): LockedAsk {
  if (ask.state === 'put') return ask
  if (ask.state === 'yes' || ask.state === 'no')
    throw new Failure('conflict', { rule: 'ask-answered-already' })
  throw new Failure('taken', { rule: ask.state === 'unanswered' ? 'ask-ran-out' : 'ask-taken-back' })
}

type Ended =
  | { readonly state: 'yes'; readonly at: Date; readonly by: string; readonly comesAt: Date | null }
  | { readonly state: 'no'; readonly at: Date; readonly by: string; readonly reason: string | null }
  | { readonly state: 'unanswered' | 'taken-back' }

/** An ask that was put ends; false when it ended before. */
export async function endAsk(tx: Tx, askId: number, ended: Ended): Promise<boolean> {
  const answer =
    ended.state === 'yes' || ended.state === 'no' ? { answeredAt: ended.at, answeredByWords: ended.by } : {}
  const { count } = await tx.ask.updateMany({
    where: { id: askId, state: 'put' },
    data: {
      state: ended.state,
      ...answer,
      ...(ended.state === 'yes' && { comesAt: ended.comesAt }),
      ...(ended.state === 'no' && { reason: ended.reason }),
    },
  })
  return count === 1
}

/** The other asks of a referral that still wait, taken back. Gives their numbers. */
export async function takeBackOthers(tx: Tx, referralId: number, askId: number): Promise<number[]> {
  const rows = await tx.ask.findMany({
    where: { referralId, state: 'put', id: { not: askId } },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  const ids = rows.map(({ id }) => id)
  await tx.ask.updateMany({ where: { id: { in: ids } }, data: { state: 'taken-back' } })
  return ids
}

/** Numbers rung for an ask, the first first. */
export async function listRung(tx: Tx, askId: number): Promise<string[]> {
  const rows = await tx.askTry.findMany({
    where: { askId },
    orderBy: { tryNo: 'asc' },
    select: { phone: true },
  })
  return rows.map(({ phone }) => phone)
}

/** Centres that were asked for a decision. */
export async function listAskedCentres(tx: Tx, decisionId: number): Promise<number[]> {
  const rows = await tx.ask.findMany({ where: { decisionId }, select: { centreId: true } })
  return rows.flatMap(({ centreId }) => centreId ?? [])
}

export type ReferralOpen = {
  readonly id: number
  readonly what: string
  readonly homeCentreId: number | null
}

/** The open referral of a casualty, if there is one. */
export async function findOpenReferral(tx: Tx, casualtyId: number): Promise<ReferralOpen | undefined> {
  const row = await tx.referral.findFirst({
    where: { casualtyId, closedAt: null },
    orderBy: { id: 'desc' },
    select: { id: true, what: true, homeCentreId: true },
  })
  return row ?? undefined
}

/** What a referral asks for may be said anew with each ask. */
export async function updateReferral(
  tx: Tx,
  id: number,
  said: Pick<NewReferral, 'what' | 'homeCentreId' | 'offers'>,
): Promise<void> {
  await tx.referral.update({ where: { id }, data: said })
}

/** How often a referral or a practice of it stands: asks that wait or were agreed to. */
export async function countStanding(
  tx: Tx,
  referralId: number,
  practiceId: number,
): Promise<{
  readonly yes: number
  readonly waiting: number
}> {
  const [yes, waiting] = await Promise.all([
    tx.ask.count({ where: { referralId, state: 'yes' } }),
    tx.ask.count({ where: { referralId, practiceId, state: 'put' } }),
  ])
  return { yes, waiting }
}

export function stateOf(text: string): AskState {
  return ASK_STATES.find(one => one === text) ?? 'written'
}
