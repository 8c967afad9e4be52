/**
 * Setting up drivers: where they drive, in what, when, whether at night.
 * Promise: a driver who has an animal on the road, or a leg to drive, is not switched off; the refusal names them.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  type DriverDetail,
  getDriverDetail,
  insertDriver,
  listDriven,
  listDrivers as listRows,
  updateDriver,
  updateDriverSwitch,
} from '#lib/db/setup/driver.ts'
import { driverForm } from '#lib/domain/driver.ts'
import { parse } from '#lib/domain/parse.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { drivesWords } from '#lib/words/road-refusal.ts'

export type { DriverDetail }

const COLUMNS = ['name', 'phone', 'area', 'vehicle', 'hours', 'drives_at_night', 'note']

export async function listDrivers(actor: Actor): Promise<DriverDetail[]> {
  return listRows(demand(actor, 'setup.read'))
}

export async function getDriver(actor: Actor, id: number): Promise<DriverDetail> {
  return getDriverDetail(demand(actor, 'setup.read'), id)
}

/** The form that adds one is for whoever may. */
export async function mayAddDriver(actor: Actor): Promise<void> {
  demand(actor, 'setup.drivers')
}

export async function addDriver(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'setup.drivers')
  const driver = parse(driverForm, input)
  return inEntry(
    grant,
    { now, action: 'added', subject: 'driver', subjectId: id => id, columns: COLUMNS },
    entry => insertDriver(entry, driver),
  )
}

export async function changeDriver(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.drivers')
  const { version } = parse(versionForm, input)
  const driver = parse(driverForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'driver', subjectId: id, columns: COLUMNS },
    entry => updateDriver(entry, { id, version }, driver),
  )
}

export async function switchDriver(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.drivers')
  const { version, isActive } = parse(switchForm, input)
  await inEntry(
    grant,
    {
      now,
      action: isActive ? 'switched on' : 'switched off',
      subject: 'driver',
      subjectId: id,
      columns: ['is_active'],
    },
    async entry => {
      await updateDriverSwitch(entry, { id, version }, isActive)
      if (!isActive) refuseDriving(await listDriven(entry, id))
    },
  )
}

function refuseDriving(references: readonly string[]): void {
  if (references.length === 0) return
  throw new Failure('rule', { rule: 'driver-drives', data: { say: drivesWords(references) } })
}
