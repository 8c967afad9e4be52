/**
 * Turns on the duty line and the handovers offered: read, begun, ended, settled.
 * Promise: one turn runs at a time, by constraint; whoever passes the line locks the running turn first, so that of
 * two the second finds it ended. Nothing that ended is written again.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { LineOffer, LineTurn, TurnHow } from '#lib/domain/line.ts'
import { type Db, db } from './client.ts'
import type { EntryTx } from './entry.ts'

type Tx = Pick<EntryTx, 'tx'>
type Reads = Grant<'line.read' | 'line.hold' | 'people.change' | 'system.run'>

const selected = {
  id: true,
  holderId: true,
  takenAt: true,
  untilAt: true,
  how: true,
  reason: true,
  passed: true,
  endedAt: true,
  holder: {
    select: {
      name: true,
      phone: true,
      isActive: true,
      personRoleByPersonId: { where: { role: 'coordinator' }, select: { id: true }, take: 1 },
    },
  },
} as const

type Row = Omit<LineTurn, 'holder' | 'phone' | 'isHolderThere' | 'how'> & {
  readonly how: string
  readonly holder: {
    readonly name: string
    readonly phone: string | null
    readonly isActive: boolean
    readonly personRoleByPersonId: readonly unknown[]
  }
}

/** The turn that runs; undefined when nobody ever took the line up, or it was put down. */
export async function findTurn(_grant: Reads, on: Db = db()): Promise<LineTurn | undefined> {
  const row = await on.lineTurn.findFirst({ where: { endedAt: null }, select: selected })
  return row === null ? undefined : turnOf(row)
}

/** The same, locked until the transaction ends. */
export async function lockTurn(grant: Reads, { tx }: Tx): Promise<LineTurn | undefined> {
  await tx.$queryRaw`select id from line_turn where ended_at is null for update`
  return findTurn(grant, tx)
}

/** The handover that waits for an answer. */
export async function findOffer(_grant: Reads, on: Db = db()): Promise<LineOffer | undefined> {
  const row = await on.lineOffer.findFirst({
    where: { state: 'open' },
    select: {
      id: true,
      turnId: true,
      toId: true,
      words: true,
      offeredAt: true,
      to: { select: { name: true } },
    },
  })
  return row === null ? undefined : { ...row, to: row.to?.name ?? null }
}

/** The turns begun last, the newest first. */
export async function listTurns(_grant: Grant<'line.read'>, limit: number): Promise<LineTurn[]> {
  const rows = await db().lineTurn.findMany({
    select: selected,
    orderBy: [{ takenAt: 'desc' }, { id: 'desc' }],
    take: limit,
  })
  return rows.map(turnOf)
}

export type Holder = { readonly id: number; readonly name: string; readonly phone: string | null }

/** Who may hold the line, by name. */
export async function listHolders(_grant: Reads): Promise<Holder[]> {
  return db().person.findMany({
    where: { isActive: true, personRoleByPersonId: { some: { role: 'coordinator' } } },
    select: { id: true, name: true, phone: true },
    orderBy: { name: 'asc' },
  })
}

/** Whether somebody is a coordinator who is switched on. */
export async function isHolder({ tx }: Tx, personId: number): Promise<boolean> {
  const found = await tx.person.count({
    where: { id: personId, isActive: true, personRoleByPersonId: { some: { role: 'coordinator' } } },
  })
  return found > 0
}

export type NewTurn = {
  readonly holderId: number
  readonly takenAt: Date
  readonly untilAt: Date
  readonly how: TurnHow
  readonly reason?: string | undefined
  readonly passed: readonly string[]
}

/** Begins a turn; the one before must have ended. */
export async function insertTurn({ tx }: Tx, turn: NewTurn): Promise<number> {
  const { id } = await tx.lineTurn.create({
    data: { ...turn, reason: turn.reason ?? null, passed: [...turn.passed] },
    select: { id: true },
  })
  return id
}

/** Ends a turn and says what became of the handover that was offered in it. */
export async function endTurn(
  { tx }: Tx,
  turnId: number,
  offer: 'accepted' | 'overtaken',
  at: Date,
): Promise<void> {
  await tx.lineTurn.updateMany({ where: { id: turnId, endedAt: null }, data: { endedAt: at } })
  await tx.lineOffer.updateMany({ where: { state: 'open' }, data: { state: offer, settledAt: at } })
}

/** How much longer the holder stays; false when the turn ended meanwhile. */
export async function updateTurnEnd({ tx }: Tx, turnId: number, untilAt: Date): Promise<boolean> {
  const { count } = await tx.lineTurn.updateMany({
    where: { id: turnId, endedAt: null },
    data: { untilAt },
  })
  return count > 0
}

export async function insertOffer({ tx }: Tx, offer: Omit<LineOffer, 'id' | 'to'>): Promise<number> {
  const { id } = await tx.lineOffer.create({ data: offer, select: { id: true } })
  return id
}

/** Takes an offer back; false when it was answered meanwhile. */
export async function withdrawOffer({ tx }: Tx, turnId: number, at: Date): Promise<boolean> {
  const { count } = await tx.lineOffer.updateMany({
    where: { turnId, state: 'open' },
    data: { state: 'withdrawn', settledAt: at },
  })
  return count > 0
}

function turnOf({ holder, how, ...row }: Row): LineTurn {
  return {
    ...row,
    how: how as TurnHow,
    holder: holder.name,
    phone: holder.phone,
    isHolderThere: holder.isActive && holder.personRoleByPersonId.length > 0,
  }
}
