/**
 * Drivers with their hours.
 * Promise: hours are replaced as a whole with the version they were read at. Writes run inside an entry.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Driver } from '#lib/domain/driver.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type DriverDetail = Driver & {
  readonly id: number
  readonly isActive: boolean
  readonly version: number
}

const included = {
  driverHoursByDriverId: {
    select: { weekday: true, opensMinute: true, closesMinute: true },
    orderBy: [{ weekday: 'asc' as const }, { opensMinute: 'asc' as const }],
  },
}

export async function listDrivers(_grant: Grant<'setup.read'>): Promise<DriverDetail[]> {
  const rows = await db().driver.findMany({
    include: included,
    orderBy: [{ isActive: 'desc' }, { name: 'asc' }],
  })
  return rows.map(driverOf)
}

export async function getDriverDetail(_grant: Grant<'setup.read'>, id: number): Promise<DriverDetail> {
  const row = await db().driver.findUnique({ where: { id }, include: included })
  if (row === null) throw new Failure('not-found')
  return driverOf(row)
}

export async function insertDriver(entry: EntryTx, driver: Driver): Promise<number> {
  const { id } = await entry.tx.driver.create({ data: columnsOf(driver), select: { id: true } })
  await writeLists(entry, id, driver)
  return id
}

export async function updateDriver(
  entry: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  driver: Driver,
): Promise<void> {
  const written = await entry.tx.driver.updateMany({
    where: { id, version },
    data: { ...columnsOf(driver), version: { increment: 1 } },
  })
  await refuseStale(written, () => entry.tx.driver.findUnique({ where: { id }, select: { version: true } }))
  await entry.tx.driverHours.deleteMany({ where: { driverId: id } })
  await writeLists(entry, id, driver)
}

export async function updateDriverSwitch(
  { tx }: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  isActive: boolean,
): Promise<void> {
  const written = await tx.driver.updateMany({
    where: { id, version },
    data: { isActive, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.driver.findUnique({ where: { id }, select: { version: true } }))
}

async function writeLists({ tx }: EntryTx, driverId: number, driver: Driver): Promise<void> {
  await tx.driverHours.createMany({ data: driver.hours.map(one => ({ ...one, driverId })) })
}

/** Whom a driver has on the road, and whom a leg is planned for, by reference. */
export async function listDriven({ tx }: EntryTx, driverId: number): Promise<string[]> {
  const rows = await tx.$queryRaw<{ reference: string }[]>`
    select c.reference from casualty c
     where exists (select from whereabouts w join keeping k on k.id = w.keeping_id
                    where w.casualty_id = c.id and w.until is null and k.driver_id = ${driverId}::int)
        or exists (select from journey_animal a join leg l on l.journey_id = a.journey_id
                    where a.casualty_id = c.id and a.state = 'open' and l.state = 'planned' and l.driver_id = ${driverId}::int)
     order by c.reference`
  return rows.map(({ reference }) => reference)
}

function columnsOf(driver: Driver) {
  const { hours: _hours, ...columns } = driver
  return columns
}

type Row = Omit<DriverDetail, 'hours'> & {
  readonly driverHoursByDriverId: DriverDetail['hours']
}

function driverOf({ driverHoursByDriverId, ...row }: Row): DriverDetail {
  return { ...row, hours: driverHoursByDriverId }
}
