/**
 * Centres with hours, what they take and what they offer without being asked.
 * Promise: hours, groups and offers are replaced as a whole with the version they were read at; nothing else is
 * touched. Writes run inside an entry.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type CentreWithOffers, centreFields, type MovementStop, movementStop } from '#lib/domain/centre.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type CentreRow = {
  readonly id: number
  readonly name: string
  readonly nightDoor: CentreWithOffers['nightDoor']
  readonly isActive: boolean
  readonly enclosures: number
  readonly stop: MovementStop['siteState'] | null
}
export type CentreDetail = CentreWithOffers & {
  readonly id: number
  readonly version: number
  readonly isActive: boolean
}

export async function listCentreRows(_grant: Grant<'setup.read'>, at: Date): Promise<CentreRow[]> {
  const rows = await db().centre.findMany({
    select: {
      id: true,
      name: true,
      nightDoor: true,
      isActive: true,
      _count: { select: { enclosureByCentreId: { where: { isActive: true } } } },
      movementStopByCentreId: {
        where: { startsAt: { lte: at }, OR: [{ endsAt: null }, { endsAt: { gt: at } }] },
        select: { siteState: true },
        take: 1,
      },
    },
    orderBy: [{ isActive: 'desc' }, { name: 'asc' }],
  })
  return rows.map(row => ({
    id: row.id,
    name: row.name,
    nightDoor: centreFields.nightDoor.parse(row.nightDoor),
    isActive: row.isActive,
    enclosures: row._count.enclosureByCentreId,
    stop: movementStop.shape.siteState.nullable().parse(row.movementStopByCentreId[0]?.siteState ?? null),
  }))
}

export async function getCentreDetail(_grant: Grant<'setup.read'>, id: number): Promise<CentreDetail> {
  const row = await db().centre.findUnique({
    where: { id },
    include: {
      centreHoursByCentreId: {
        select: { weekday: true, opensMinute: true, closesMinute: true },
        orderBy: [{ weekday: 'asc' }, { opensMinute: 'asc' }],
      },
      centreTakesByCentreId: { select: { groupSlug: true }, orderBy: { groupSlug: 'asc' } },
      standingOfferByCentreId: { orderBy: { groupSlug: 'asc' } },
    },
  })
  if (row === null) throw new Failure('not-found')
  return {
    id: row.id,
    version: row.version,
    isActive: row.isActive,
    name: row.name,
    about: row.about,
    phone: row.phone,
    latitude: row.latitude,
    longitude: row.longitude,
    nightDoor: centreFields.nightDoor.parse(row.nightDoor),
    nightName: row.nightName,
    nightPhone: row.nightPhone,
    hours: row.centreHoursByCentreId,
    takes: row.centreTakesByCentreId.map(one => one.groupSlug),
    offers: row.standingOfferByCentreId.map(one => ({ group: one.groupSlug, places: one.places })),
  }
}

/** The groups a centre takes, as they stand inside the entry. */
export async function listTaken({ tx }: EntryTx, centreId: number): Promise<string[]> {
  const rows = await tx.centreTakes.findMany({ where: { centreId }, select: { groupSlug: true } })
  return rows.map(row => row.groupSlug)
}

export async function insertCentre(entry: EntryTx, centre: CentreWithOffers): Promise<number> {
  const { id } = await entry.tx.centre.create({ data: columnsOf(centre), select: { id: true } })
  await writeLists(entry, id, centre)
  return id
}

export async function updateCentre(
  entry: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  centre: CentreWithOffers,
): Promise<void> {
  const written = await entry.tx.centre.updateMany({
    where: { id, version },
    data: { ...columnsOf(centre), version: { increment: 1 } },
  })
  await refuseStale(written, () => entry.tx.centre.findUnique({ where: { id }, select: { version: true } }))
  await entry.tx.centreHours.deleteMany({ where: { centreId: id } })
  await entry.tx.centreTakes.deleteMany({ where: { centreId: id } })
  await entry.tx.standingOffer.deleteMany({ where: { centreId: id } })
  await writeLists(entry, id, centre)
}

export async function updateCentreSwitch(
  { tx }: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  isActive: boolean,
): Promise<void> {
  const written = await tx.centre.updateMany({
    where: { id, version },
    data: { isActive, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.centre.findUnique({ where: { id }, select: { version: true } }))
}

async function writeLists({ tx }: EntryTx, centreId: number, centre: CentreWithOffers): Promise<void> {
  await tx.centreHours.createMany({ data: centre.hours.map(one => ({ ...one, centreId })) })
  await tx.centreTakes.createMany({ data: centre.takes.map(groupSlug => ({ centreId, groupSlug })) })
  await tx.standingOffer.createMany({
    data: centre.offers.map(({ group, places }) => ({ centreId, groupSlug: group, places })),
  })
}

function columnsOf(centre: CentreWithOffers) {
  const { hours: _hours, takes: _takes, offers: _offers, ...columns } = centre
  return columns
}
