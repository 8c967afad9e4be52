/**
 * A centre as one walks it: its rooms and enclosures in order with their sizes, and who is in without a proper place.
 * Promise: only what is in use or has somebody in it; an enclosure stands in its room, in walking order. Sizes in metres.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { HOUSING_TYPES, type HousingType } from '#lib/domain/housing.ts'
import type { ShortCause } from '#lib/domain/who-is-where.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'

export type WalkedEnclosure = {
  readonly id: number
  readonly name: string
  readonly housing: HousingType
  readonly widthM: number
  readonly lengthM: number
  readonly features: readonly string[]
  readonly mostPlaces: number
}
export type WalkedRoom = {
  readonly id: number
  readonly name: string
  readonly kind: string
  readonly enclosures: readonly WalkedEnclosure[]
}
export type WalkedCentre = {
  readonly id: number
  readonly name: string
  readonly about: string
  readonly countedAt: Date | null
  readonly rooms: readonly WalkedRoom[]
}

/** Switched off, and somebody still in: to be seen until she is moved. */
const occupied = { whereaboutsByEnclosureId: { some: { until: null } } }

const housing = z.enum(HOUSING_TYPES)

/** Rooms and enclosures in walking order. Failure 'not-found' for a centre that is not there. */
export async function getWalkedCentre(_grant: Grant<'round.read'>, centreId: number): Promise<WalkedCentre> {
  const centre = await db().centre.findFirst({
    where: { id: centreId, isActive: true },
    include: {
      roomByCentreId: {
        where: { OR: [{ isActive: true }, { enclosureByRoomIdAndCentreId: { some: occupied } }] },
        orderBy: [{ walkingOrder: 'asc' }, { id: 'asc' }],
        include: {
          enclosureByRoomIdAndCentreId: {
            where: { OR: [{ isActive: true, room: { isActive: true } }, occupied] },
            orderBy: [{ walkingOrder: 'asc' }, { id: 'asc' }],
            include: { stockingByEnclosureId: { select: { places: true } } },
          },
        },
      },
    },
  })
  if (centre === null) throw new Failure('not-found')
  return {
    id: centre.id,
    name: centre.name,
    about: centre.about,
    countedAt: centre.countedAt,
    rooms: centre.roomByCentreId.map(room => ({
      id: room.id,
      name: room.name,
      kind: room.kind,
      enclosures: room.enclosureByRoomIdAndCentreId.map(one => ({
        id: one.id,
        name: one.name,
        housing: housing.parse(one.housingType),
        widthM: one.widthM,
        lengthM: one.lengthM,
        features: one.features,
        mostPlaces: Math.max(0, ...one.stockingByEnclosureId.map(({ places }) => places)),
      })),
    })),
  }
}

/** Who is at a centre without a proper place at an instant, and why. */
export async function listShortAt(
  _grant: Grant<'round.read'>,
  centreId: number,
  now: Date,
): Promise<ReadonlyMap<number, ShortCause>> {
  const rows = await db().$queryRaw<{ casualtyId: number; because: ShortCause }[]>`
    select w.casualty_id as "casualtyId", x.because
      from whereabouts w, lateral (
        select s.because from short s
         where s.casualty_id = w.casualty_id and s.keeping_id = w.keeping_id
           and s.starts_at <= ${now}::timestamptz and (s.ends_at is null or s.ends_at > ${now}::timestamptz)
         limit 1) x
     where w.until is null and w.keeper = 'centre' and w.centre_id = ${centreId}::int`
  return new Map(rows.map(row => [row.casualtyId, row.because]))
}

export type CentreChoice = {
  readonly id: number
  readonly name: string
  readonly about: string
  readonly countedAt: Date | null
  readonly inside: number
}

/** The centres somebody can go round in, with how many are in each. */
export async function listRoundCentres({ scope }: Grant<'round.read'>): Promise<CentreChoice[]> {
  const own = scope.kind === 'own' ? { id: { in: [...scope.centreIds] } } : {}
  const rows = await db().centre.findMany({
    where: { isActive: true, ...own },
    orderBy: { name: 'asc' },
    select: {
      id: true,
      name: true,
      about: true,
      countedAt: true,
      _count: { select: { whereaboutsByCentreId: { where: { until: null, keeper: 'centre' } } } },
    },
  })
  return rows.map(({ _count, ...row }) => ({ ...row, inside: _count.whereaboutsByCentreId }))
}
