/**
 * Enclosures with their stocking.
 * Promise: the enclosures concerned are locked and brought up to this moment before anybody is counted in them;
 * stocking is replaced as a whole. Writes run inside an entry and over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type Enclosure, enclosureFields } from '#lib/domain/enclosure.ts'
import type { HousingType } from '#lib/domain/housing.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import { settleEnclosures } from '../closure.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type EnclosureRow = {
  readonly id: number
  readonly name: string
  readonly centre: string
  readonly room: string
  readonly housingType: HousingType
  readonly companies: number
  readonly isActive: boolean
}
export type EnclosureDetail = Enclosure & {
  readonly id: number
  readonly centreId: number
  readonly centre: string
  readonly isActive: boolean
  readonly version: number
}
export type EnclosurePage = { readonly rows: readonly EnclosureRow[]; readonly total: number }

/** One page of the enclosures, of one centre if asked, in walking order. */
export async function listEnclosureRows(
  _grant: Grant<'setup.read'>,
  asked: { readonly centreId: number | undefined; readonly skip: number; readonly take: number },
): Promise<EnclosurePage> {
  const where = asked.centreId === undefined ? {} : { centreId: asked.centreId }
  const [rows, total] = await Promise.all([
    db().enclosure.findMany({
      where,
      skip: asked.skip,
      take: asked.take,
      select: {
        id: true,
        name: true,
        housingType: true,
        isActive: true,
        room: { select: { name: true } },
        centre: { select: { name: true } },
        _count: { select: { stockingByEnclosureId: true } },
      },
      orderBy: [
        { centre: { name: 'asc' } },
        { room: { walkingOrder: 'asc' } },
        { walkingOrder: 'asc' },
        { id: 'asc' },
      ],
    }),
    db().enclosure.count({ where }),
  ])
  return {
    total,
    rows: rows.map(row => ({
      id: row.id,
      name: row.name,
      centre: row.centre.name,
      room: row.room.name,
      housingType: enclosureFields.housingType.parse(row.housingType),
      companies: row._count.stockingByEnclosureId,
      isActive: row.isActive,
    })),
  }
}

export async function getEnclosureDetail(
  grant: Grant<'setup.read'>,
  enclosureId: number,
): Promise<EnclosureDetail> {
  return detailOf(db(), grant, enclosureId)
}

/** Locks enclosures and brings them up to this moment, so that who is in them is who is in them now. */
export async function lockUpToNow(entry: EntryTx, enclosureIds: readonly number[], at: Date): Promise<void> {
  await settleEnclosures(entry, enclosureIds, at)
}

/** The enclosure as it stands inside the entry. */
export async function getEnclosureLocked(
  { tx }: EntryTx,
  grant: Grant<'setup.housing'>,
  enclosureId: number,
): Promise<EnclosureDetail> {
  return detailOf(tx, grant, enclosureId)
}

export async function insertEnclosure(entry: EntryTx, made: Enclosure): Promise<number> {
  const { stocking, ...columns } = made
  const { id } = await entry.tx.enclosure.create({
    data: { ...columns, centreId: await centreOfRoom(entry, made.roomId) },
    select: { id: true },
  })
  await writeStocking(entry, id, stocking)
  return id
}

export async function updateEnclosure(
  entry: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  change: Enclosure,
): Promise<void> {
  const { stocking, ...columns } = change
  const centreId = await centreOfRoom(entry, change.roomId)
  const written = await entry.tx.enclosure.updateMany({
    where: { id, version },
    data: { ...columns, centreId, version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    entry.tx.enclosure.findUnique({ where: { id }, select: { version: true } }),
  )
  await entry.tx.stocking.deleteMany({
    where: { enclosureId: id, companySlug: { notIn: stocking.map(row => row.company) } },
  })
  await writeStocking(entry, id, stocking)
}

export async function updateEnclosureSwitch(
  { tx }: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  isActive: boolean,
): Promise<void> {
  const written = await tx.enclosure.updateMany({
    where: { id, version },
    data: { isActive, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.enclosure.findUnique({ where: { id }, select: { version: true } }))
}

/** Failure where there is no such room. */
export async function centreOfRoom({ tx }: EntryTx, roomId: number): Promise<number> {
  const room = await tx.room.findUnique({ where: { id: roomId }, select: { centreId: true } })
  if (room === null) throw new Failure('rule', { rule: 'refers_to_what_is_there', field: 'roomId' })
  return room.centreId
}

/** A line that stays is changed, not taken out: whoever is in goes by it while it is being written. */
async function writeStocking(
  { tx }: EntryTx,
  enclosureId: number,
  stocking: Enclosure['stocking'],
): Promise<void> {
  const companies = stocking.map(row => row.company)
  const places = stocking.map(row => row.places)
  await tx.$executeRaw`
    insert into stocking (enclosure_id, company_slug, places)
    select ${enclosureId}::int, company, places from unnest(${companies}::text[], ${places}::int[]) as s (company, places)
    on conflict (enclosure_id, company_slug) do update set places = excluded.places
      where stocking.places <> excluded.places`
}

async function detailOf(
  on: Pick<EntryTx['tx'], 'enclosure'>,
  _grant: Grant<'setup.read' | 'setup.housing'>,
  id: number,
): Promise<EnclosureDetail> {
  const row = await on.enclosure.findUnique({
    where: { id },
    include: {
      centre: { select: { name: true } },
      stockingByEnclosureId: { orderBy: { companySlug: 'asc' } },
    },
  })
  if (row === null) throw new Failure('not-found')
  const { centre, stockingByEnclosureId, settledAt: _settledAt, housingType, driesAfter, ...columns } = row
  return {
    ...columns,
    housingType: enclosureFields.housingType.parse(housingType),
    driesAfter: enclosureFields.driesAfter.parse(driesAfter),
    centre: centre.name,
    stocking: stockingByEnclosureId.map(one => ({ company: one.companySlug, places: one.places })),
  }
}
