/**
 * Moves between centres: written, ended, read.
 * Promise: one open move an animal, by constraint; its answer and where the animal is lead it, by triggers. Writes run
 * inside an entry, under the casualty's lock.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import {
  type TransferBills,
  type TransferReason,
  type TransferState,
  transferBills,
  transferReason,
  transferState,
} from '#lib/domain/transfer.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

type Tx = EntryTx['tx']

export type NewTransfer = {
  readonly casualtyId: number
  readonly fromCentreId: number
  readonly toCentreId: number
  readonly reason: TransferReason
  readonly bills: TransferBills | null
  readonly proposedAt: Date
  readonly proposedBy: number | null
  readonly expectedAt: Date
  readonly lapsesAt: Date
  readonly askId: number
  /** Agreed at once, by a standing offer. */
  readonly state: 'proposed' | 'agreed'
}

export async function insertTransfer(tx: Tx, { bills, ...transfer }: NewTransfer): Promise<number> {
  const { id } = await tx.transfer.create({
    data: { ...transfer, ...(bills !== null && { bills }) },
    select: { id: true },
  })
  return id
}

export type LockedTransfer = {
  readonly id: number
  readonly casualtyId: number
  readonly toCentreId: number
  readonly state: TransferState
  readonly expectedAt: Date
  readonly lapsesAt: Date
  readonly askId: number | null
}

/** A move as it stands, held with its animal until the entry ends. */
export async function lockTransfer(tx: Tx, id: number): Promise<LockedTransfer> {
  await tx.$queryRaw`
    select 1 from casualty where id = (select casualty_id from transfer where id = ${id}::int) for no key update`
  await tx.$queryRaw`select 1 from transfer where id = ${id}::int for update`
  const row = await tx.transfer.findUnique({ where: { id } })
  if (row === null) throw new Failure('not-found')
  return { ...row, state: transferState.parse(row.state) }
}

/** The move that an ask is about. */
export async function findTransferOfAsk(
  _grant: Grant<'system.run'>,
  askId: number,
): Promise<Pick<LockedTransfer, 'casualtyId' | 'toCentreId' | 'expectedAt' | 'lapsesAt'> | null> {
  return db().transfer.findFirst({
    where: { askId },
    select: { casualtyId: true, toCentreId: true, expectedAt: true, lapsesAt: true },
  })
}

/** Nobody else fills a standing offer of this centre until the commit. */
export async function lockOffer(tx: Tx, centreId: number): Promise<void> {
  await tx.$queryRaw`select 1 from centre where id = ${centreId}::int for no key update`
}

/** Ends a move that is open. */
export async function endTransfer(tx: Tx, id: number, state: 'cancelled', at: Date): Promise<void> {
  await tx.$queryRaw`select end_transfer(${id}::int, ${state}::text, ${at}::timestamptz)::text`
}

/** Agreed moves that nobody drove by their hour; how many, at most twenty a claim. */
export async function expireTransfers(_grant: Grant<'system.run'>, at: Date): Promise<number> {
  const [row] = await db().$queryRaw<{ count: number }[]>`
    select expire_transfers(${at}::timestamptz) as count`
  return row?.count ?? 0
}

export type TransferView = {
  readonly id: number
  readonly casualtyId: number
  readonly reference: string
  readonly species: string
  readonly from: string
  readonly to: string
  readonly state: TransferState
  readonly reason: TransferReason
  readonly bills: TransferBills | null
  readonly proposedAt: Date
  readonly expectedAt: Date
  readonly lapsesAt: Date
  readonly endedAt: Date | null
  readonly askId: number | null
  readonly answerBy: Date | null
  /** Who said yes: somebody, or the standing offer. */
  readonly agreedBy: string | null
  readonly journeyId: number | null
  /** The enclosure kept for it where it goes. */
  readonly held: string | null
}

const LATELY_HOURS = 24

/** Moves that are open, and those that ended within a day. */
export async function listTransfers(_grant: Grant<'move.read'>, now: Date): Promise<TransferView[]> {
  const since = new Date(now.getTime() - LATELY_HOURS * 3_600_000)
  const rows = await db().transfer.findMany({
    where: { OR: [{ endedAt: null }, { endedAt: { gte: since } }] },
    orderBy: [{ endedAt: { sort: 'asc', nulls: 'first' } }, { proposedAt: 'asc' }],
    include: {
      fromCentre: { select: { name: true } },
      toCentre: { select: { id: true, name: true } },
      ask: { select: { lapsesAt: true, answeredByWords: true } },
      casualty: {
        select: {
          reference: true,
          species: { select: { commonName: true } },
          claimByCasualtyId: {
            where: { kind: 'hold', state: 'live' },
            orderBy: { id: 'asc' },
            select: { enclosure: { select: { name: true, centreId: true } } },
          },
          journeyAnimalByCasualtyId: { where: { state: 'open' }, select: { journeyId: true } },
        },
      },
    },
  })
  return rows.map(({ casualty, fromCentre, toCentre, ask, ...row }) => ({
    ...row,
    state: transferState.parse(row.state),
    reason: transferReason.parse(row.reason),
    bills: row.bills === null ? null : transferBills.parse(row.bills),
    reference: casualty.reference,
    species: casualty.species.commonName,
    from: fromCentre.name,
    to: toCentre.name,
    answerBy: ask?.lapsesAt ?? null,
    agreedBy: ask?.answeredByWords ?? null,
    journeyId: row.journeyId ?? casualty.journeyAnimalByCasualtyId[0]?.journeyId ?? null,
    held:
      casualty.claimByCasualtyId.find(({ enclosure }) => enclosure.centreId === toCentre.id)?.enclosure
        .name ?? null,
  }))
}

/** Animals that are on the road or about to move: nothing is proposed for them. */
export async function listMoving(_grant: Grant<'move.read'>): Promise<ReadonlySet<number>> {
  const rows = await db().$queryRaw<{ id: number }[]>`
    select casualty_id as id from transfer where state in ('proposed', 'agreed', 'on-the-road')
    union select casualty_id from journey_animal where state = 'open'`
  return new Set(rows.map(({ id }) => id))
}

/** Animals at a centre without a proper place at an instant. */
export async function listShort(_grant: Grant<'move.read'>, now: Date): Promise<ReadonlySet<number>> {
  const rows = await db().$queryRaw<{ id: number }[]>`
    select w.casualty_id as id from whereabouts w
     where w.until is null and w.keeper = 'centre'
       and (select true from short x
             where x.casualty_id = w.casualty_id and x.keeping_id = w.keeping_id
               and x.starts_at <= ${now}::timestamptz and (x.ends_at is null or x.ends_at > ${now}::timestamptz) limit 1)`
  return new Set(rows.map(({ id }) => id))
}
