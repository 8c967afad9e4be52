/**
 * Rooms of centres. Promise: a room stays with its centre; writes run inside an entry and over the version read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type Room, room } from '#lib/domain/centre.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type RoomRow = Room & {
  readonly id: number
  readonly centreId: number
  readonly centre: string
  readonly enclosures: number
  readonly isActive: boolean
  readonly version: number
}

const selected = {
  id: true,
  centreId: true,
  name: true,
  kind: true,
  walkingOrder: true,
  predatorsApart: true,
  isActive: true,
  version: true,
  centre: { select: { name: true } },
  _count: { select: { enclosureByRoomIdAndCentreId: { where: { isActive: true } } } },
} as const

export async function listRoomRows(_grant: Grant<'setup.read'>): Promise<RoomRow[]> {
  const rows = await db().room.findMany({
    select: selected,
    orderBy: [{ centre: { name: 'asc' } }, { walkingOrder: 'asc' }, { id: 'asc' }],
  })
  return rows.map(roomOf)
}

export async function getRoomRow(_grant: Grant<'setup.read'>, id: number): Promise<RoomRow> {
  const row = await db().room.findUnique({ where: { id }, select: selected })
  if (row === null) throw new Failure('not-found')
  return roomOf(row)
}

export async function insertRoom({ tx }: EntryTx, centreId: number, made: Room): Promise<number> {
  const { id } = await tx.room.create({ data: { ...made, centreId }, select: { id: true } })
  return id
}

export async function updateRoom(
  { tx }: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  change: Room | { readonly isActive: boolean },
): Promise<void> {
  const written = await tx.room.updateMany({
    where: { id, version },
    data: { ...change, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.room.findUnique({ where: { id }, select: { version: true } }))
}

/** Whether a room keeps predators and prey apart, as it stands inside the entry. */
export async function isRoomApart({ tx }: EntryTx, roomId: number): Promise<boolean> {
  const row = await tx.room.findUnique({ where: { id: roomId }, select: { predatorsApart: true } })
  return row?.predatorsApart === true
}

/** The enclosures of a room. */
export async function listEnclosureIdsOfRoom({ tx }: EntryTx, roomId: number): Promise<number[]> {
  const rows = await tx.enclosure.findMany({
    where: { roomId },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  return rows.map(row => row.id)
}

type Row = Omit<RoomRow, 'centre' | 'enclosures' | 'kind'> & {
  readonly kind: string
  readonly centre: { readonly name: string }
  readonly _count: { readonly enclosureByRoomIdAndCentreId: number }
}

function roomOf({ _count, centre, kind, ...row }: Row): RoomRow {
  return {
    ...row,
    kind: room.shape.kind.parse(kind),
    centre: centre.name,
    enclosures: _count.enclosureByRoomIdAndCentreId,
  }
}
