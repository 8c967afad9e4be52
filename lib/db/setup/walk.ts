/**
 * The walking order of a centre. Promise: rooms and enclosures that are on, in the order of a round; who changes it
 * raises their versions, so that a form that was open over the old order says so.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'

export type WalkStop = { readonly id: number; readonly name: string }
export type WalkRoom = WalkStop & { readonly enclosures: readonly WalkStop[] }
export type Walk = { readonly id: number; readonly name: string; readonly rooms: readonly WalkRoom[] }

const byOrder = [{ walkingOrder: 'asc' as const }, { id: 'asc' as const }]

export async function getWalk(_grant: Grant<'setup.read'>, centreId: number): Promise<Walk> {
  return walkOf(db(), centreId)
}

/** The same inside an entry, with the rooms of the centre locked. */
export async function getWalkLocked({ tx }: EntryTx, centreId: number): Promise<Walk> {
  await tx.$queryRaw`select id from room where centre_id = ${centreId}::int order by id for no key update`
  return walkOf(tx, centreId)
}

export type Numbered = readonly { readonly id: number; readonly walkingOrder: number }[]

export async function writeRoomOrder({ tx }: EntryTx, order: Numbered): Promise<void> {
  await tx.$executeRaw`
    update room r set walking_order = n.at, version = version + 1
      from unnest(${order.map(one => one.id)}::int[], ${order.map(one => one.walkingOrder)}::int[]) as n (id, at)
     where r.id = n.id and r.walking_order <> n.at`
}

export async function writeEnclosureOrder({ tx }: EntryTx, order: Numbered): Promise<void> {
  await tx.$executeRaw`
    update enclosure e set walking_order = n.at, version = version + 1
      from unnest(${order.map(one => one.id)}::int[], ${order.map(one => one.walkingOrder)}::int[]) as n (id, at)
     where e.id = n.id and e.walking_order <> n.at`
}

async function walkOf(on: Pick<EntryTx['tx'], 'centre'>, centreId: number): Promise<Walk> {
  const row = await on.centre.findUnique({
    where: { id: centreId },
    select: {
      id: true,
      name: true,
      roomByCentreId: {
        where: { isActive: true },
        orderBy: byOrder,
        select: {
          id: true,
          name: true,
          enclosureByRoomIdAndCentreId: {
            where: { isActive: true },
            orderBy: byOrder,
            select: { id: true, name: true },
          },
        },
      },
    },
  })
  if (row === null) throw new Failure('not-found')
  return {
    id: row.id,
    name: row.name,
    rooms: row.roomByCentreId.map(({ enclosureByRoomIdAndCentreId: enclosures, ...room }) => ({
      ...room,
      enclosures,
    })),
  }
}
