/**
 * Setting up enclosures: housing, size, features, who may be in.
 * Promise: nothing here takes a place from an animal that has one or from a promise; the refusal names them. Animals
 * without a proper place are no reason to refuse a stocking, only to keep the housing and the switch as they are.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import {
  type CompanyChoice,
  listCentreChoices,
  listCompanyChoices,
  listRoomChoices,
  type Named,
  type RoomChoice,
} from '#lib/db/setup/choice.ts'
import {
  type EnclosureDetail,
  type EnclosurePage,
  getEnclosureDetail,
  getEnclosureLocked,
  insertEnclosure,
  listEnclosureRows,
  lockUpToNow,
  updateEnclosure,
  updateEnclosureSwitch,
} from '#lib/db/setup/enclosure.ts'
import { listInEnclosures } from '#lib/db/setup/occupant.ts'
import { listEnclosureIdsOfRoom } from '#lib/db/setup/room.ts'
import { type Enclosure, enclosureForm } from '#lib/domain/enclosure.ts'
import { withoutPlaceUnder } from '#lib/domain/occupant.ts'
import { parse } from '#lib/domain/parse.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { refuseOccupied } from './occupied.ts'

const COLUMNS = ['room_id', 'name', 'housing_type', 'size', 'features', 'turnaround', 'stocking']

export type EnclosureList = EnclosurePage & { readonly centres: readonly Named[] }

export async function listEnclosures(
  actor: Actor,
  asked: { readonly centreId: number | undefined; readonly skip: number; readonly take: number },
): Promise<EnclosureList> {
  const grant = demand(actor, 'setup.read')
  const [page, centres] = await Promise.all([listEnclosureRows(grant, asked), listCentreChoices(grant)])
  return { ...page, centres }
}

export type EnclosureForm = {
  readonly enclosure: EnclosureDetail | undefined
  readonly rooms: readonly RoomChoice[]
  readonly companies: readonly CompanyChoice[]
}

export async function getEnclosureForm(actor: Actor, id: number): Promise<EnclosureForm> {
  const grant = demand(actor, 'setup.read')
  const [enclosure, rooms, companies] = await Promise.all([
    getEnclosureDetail(grant, id),
    listRoomChoices(grant),
    listCompanyChoices(grant),
  ])
  return { enclosure, rooms, companies }
}

export async function newEnclosureForm(actor: Actor): Promise<EnclosureForm> {
  const grant = demand(actor, 'setup.housing')
  const [rooms, companies] = await Promise.all([listRoomChoices(grant), listCompanyChoices(grant)])
  return { enclosure: undefined, rooms, companies }
}

export async function addEnclosure(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'setup.housing')
  const enclosure = parse(enclosureForm, input)
  return inEntry(
    grant,
    { now, action: 'added', subject: 'enclosure', subjectId: id => id, columns: COLUMNS },
    entry => insertEnclosure(entry, enclosure),
  )
}

export async function changeEnclosure(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.housing')
  const { version } = parse(versionForm, input)
  const change = parse(enclosureForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'enclosure', subjectId: id, columns: COLUMNS },
    async entry => {
      const concerned = [id, ...(await listEnclosureIdsOfRoom(entry, change.roomId))]
      await lockUpToNow(entry, concerned, now)
      await refuseLoss(entry, await getEnclosureLocked(entry, grant, id), change, now)
      await updateEnclosure(entry, { id, version }, change)
      await lockUpToNow(entry, concerned, now)
    },
  )
}

export async function switchEnclosure(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.housing')
  const { version, isActive } = parse(switchForm, input)
  await inEntry(
    grant,
    {
      now,
      action: isActive ? 'switched on' : 'switched off',
      subject: 'enclosure',
      subjectId: id,
      columns: ['is_active'],
    },
    async entry => {
      await lockUpToNow(entry, [id], now)
      await updateEnclosureSwitch(entry, { id, version }, isActive)
      if (!isActive) refuseOccupied(await listInEnclosures(entry, [id], now), 'switch off')
    },
  )
}

async function refuseLoss(
  entry: EntryTx,
  before: EnclosureDetail,
  change: Enclosure,
  now: Date,
): Promise<void> {
  const occupants = await listInEnclosures(entry, [before.id], now)
  if (before.housingType !== change.housingType) refuseOccupied(occupants, 'housing')
  if (before.roomId !== change.roomId) refuseOccupied(occupants, 'room')
  refuseOccupied(withoutPlaceUnder(occupants, change.stocking), 'stocking')
}
