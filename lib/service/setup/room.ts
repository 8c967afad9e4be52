/**
 * Setting up rooms. Promise: whoever would lose a place or a promise by a change is named before it is made.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { listCentreChoices, type Named } from '#lib/db/setup/choice.ts'
import { lockUpToNow } from '#lib/db/setup/enclosure.ts'
import {
  getRoomRow,
  insertRoom,
  isRoomApart,
  listEnclosureIdsOfRoom,
  listRoomRows,
  type RoomRow,
  updateRoom,
} from '#lib/db/setup/room.ts'
import { closeOffStays, closeWithSwitch, giveUpApart } from '#lib/db/setup/standing.ts'
import { roomForm } from '#lib/domain/centre.ts'
import { parse } from '#lib/domain/parse.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { integerText } from '#lib/domain/text.ts'
import { SWITCHED_OFF } from '#lib/words/setup-refusal.ts'
import { orAsk } from './breaking.ts'

const COLUMNS = ['name', 'kind', 'walking_order', 'predators_apart']
const newRoomForm = roomForm.extend({ centreId: integerText.pipe(z.int().positive()) })

export async function listRooms(actor: Actor): Promise<RoomRow[]> {
  return listRoomRows(demand(actor, 'setup.read'))
}

export async function getRoom(actor: Actor, id: number): Promise<RoomRow> {
  return getRoomRow(demand(actor, 'setup.read'), id)
}

/** The centres that a new room may belong to. */
export async function listCentresForRoom(actor: Actor): Promise<Named[]> {
  return listCentreChoices(demand(actor, 'setup.housing'))
}

export async function addRoom(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'setup.housing')
  const { centreId, ...room } = parse(newRoomForm, input)
  return inEntry(
    grant,
    { now, action: 'added', subject: 'room', subjectId: id => id, columns: COLUMNS },
    entry => insertRoom(entry, centreId, room),
  )
}

export async function changeRoom(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.housing')
  const { version } = parse(versionForm, input)
  const room = parse(roomForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'room', subjectId: id, columns: COLUMNS },
    async entry => {
      const scope = await listEnclosureIdsOfRoom(entry, id)
      await lockUpToNow(entry, scope, now)
      await orAsk(grant, entry, { scope, input, now }, async () => {
        if (room.predatorsApart !== (await isRoomApart(entry, id))) {
          await closeOffStays(entry, scope, now)
          if (room.predatorsApart) await giveUpApart(entry, scope, now)
        }
        await updateRoom(entry, { id, version }, room)
        await lockUpToNow(entry, scope, now)
      })
    },
  )
}

export async function switchRoom(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.housing')
  const { version, isActive } = parse(switchForm, input)
  await inEntry(
    grant,
    {
      now,
      action: isActive ? 'switched on' : 'switched off',
      subject: 'room',
      subjectId: id,
      columns: ['is_active'],
    },
    async entry => {
      const scope = await listEnclosureIdsOfRoom(entry, id)
      await lockUpToNow(entry, scope, now)
      await orAsk(grant, entry, { scope, input, now }, async () => {
        await updateRoom(entry, { id, version }, { isActive })
        await closeWithSwitch(entry, scope, SWITCHED_OFF, now)
      })
    },
  )
}
