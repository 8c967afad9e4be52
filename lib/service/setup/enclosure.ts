/**
 * Setting up enclosures: housing, size, features, who may be in.
 * Promise: whoever would lose a place or a promise is named before the change is made, and it is made only when that
 * was confirmed. An enclosure with somebody in it stays with its centre.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import {
  type CompanyChoice,
  listCentreChoices,
  listCompanyChoices,
  listFeatureChoices,
  listRoomChoices,
  type Named,
  type RoomChoice,
} from '#lib/db/setup/choice.ts'
import {
  centreOfRoom,
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
import { isRoomApart, listEnclosureIdsOfRoom } from '#lib/db/setup/room.ts'
import {
  closeOffStays,
  closeWithSwitch,
  fitHolds,
  giveUpApart,
  giveUpHoldsIn,
} from '#lib/db/setup/standing.ts'
import type { Broken } from '#lib/domain/breaking.ts'
import { type Enclosure, enclosureForm } from '#lib/domain/enclosure.ts'
import type { Occupant } from '#lib/domain/occupant.ts'
import { parse } from '#lib/domain/parse.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { SWITCHED_OFF } from '#lib/words/setup-refusal.ts'
import { orAsk } from './breaking.ts'
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
  /** In use somewhere: one thing keeps one name. */
  readonly features: readonly string[]
}

export async function getEnclosureForm(actor: Actor, id: number): Promise<EnclosureForm> {
  const grant = demand(actor, 'setup.read')
  const [enclosure, rooms, companies, features] = await Promise.all([
    getEnclosureDetail(grant, id),
    listRoomChoices(grant),
    listCompanyChoices(grant),
    listFeatureChoices(grant),
  ])
  return { enclosure, rooms, companies, features }
}

export async function newEnclosureForm(actor: Actor): Promise<EnclosureForm> {
  const grant = demand(actor, 'setup.housing')
  const [rooms, companies, features] = await Promise.all([
    listRoomChoices(grant),
    listCompanyChoices(grant),
    listFeatureChoices(grant),
  ])
  return { enclosure: undefined, rooms, companies, features }
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
      const besides = await listEnclosureIdsOfRoom(entry, change.roomId)
      const scope = [id, ...besides]
      await lockUpToNow(entry, scope, now)
      const before = await getEnclosureLocked(entry, grant, id)
      const occupants = await listInEnclosures(entry, [id], now)
      await refuseLeaving(entry, before, change, occupants)
      const also = before.housingType === change.housingType ? [] : illHoused(id, occupants)
      await orAsk(grant, entry, { scope, input, now, also }, async () => {
        await closeOffStays(entry, scope, now)
        if (before.housingType !== change.housingType) await giveUpHoldsIn(entry, id, now)
        if (before.roomId !== change.roomId && (await isRoomApart(entry, change.roomId)))
          await giveUpApart(entry, scope, now)
        await updateEnclosure(entry, { id, version }, change)
        await lockUpToNow(entry, scope, now)
        await fitHolds(entry, [id], now)
      })
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
      await orAsk(grant, entry, { scope: [id], input, now }, async () => {
        await updateEnclosureSwitch(entry, { id, version }, isActive)
        await closeWithSwitch(entry, [id], SWITCHED_OFF, now)
      })
    },
  )
}

/** Facts say at which centre an animal is: an enclosure with somebody in it does not go to another. */
async function refuseLeaving(
  entry: EntryTx,
  before: EnclosureDetail,
  change: Enclosure,
  occupants: readonly Occupant[],
): Promise<void> {
  if (before.roomId === change.roomId) return
  if ((await centreOfRoom(entry, change.roomId)) !== before.centreId) refuseOccupied(occupants, 'room')
}

function illHoused(enclosureId: number, occupants: readonly Occupant[]): Broken[] {
  return occupants
    .filter(one => !one.isPromise)
    .map(({ casualtyId, reference, enclosure }) => ({
      kind: 'ill-housed',
      casualtyId,
      reference,
      enclosureId,
      enclosure: enclosure ?? '',
    }))
}
