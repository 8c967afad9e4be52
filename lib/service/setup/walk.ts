/**
 * The order in which a round goes through a centre.
 * Promise: a step is taken over the order that was seen; when somebody else changed it meanwhile, nothing moves.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  getWalk as getRows,
  getWalkLocked,
  type Walk,
  writeEnclosureOrder,
  writeRoomOrder,
} from '#lib/db/setup/walk.ts'
import { parse } from '#lib/domain/parse.ts'
import { numbered, orderWord, stepped, WAYS } from '#lib/domain/walking-order.ts'
import { Failure } from '#lib/kernel/failure.ts'

/** The button's value: "room.4.earlier"; and the order of rooms or of the room's enclosures that was seen. */
const stepForm = z.object({
  step: z.templateLiteral([z.enum(['room', 'enclosure']), '.', z.int().positive(), '.', z.enum(WAYS)]),
  seen: z.string(),
})

export async function getWalk(actor: Actor, centreId: number): Promise<Walk> {
  return getRows(demand(actor, 'setup.read'), centreId)
}

/** Moves one room, or one enclosure within its room, a step earlier or later. */
export async function changeWalk(actor: Actor, centreId: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.housing')
  const { step, seen } = parse(stepForm, input)
  const [kind, number, last] = step.split('.')
  const id = Number(number)
  const way = last === 'earlier' ? 'earlier' : 'later'
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'centre', subjectId: centreId, columns: ['walking_order'] },
    async entry => {
      const { rooms } = await getWalkLocked(entry, centreId)
      const stops =
        kind === 'room'
          ? rooms
          : (rooms.find(room => room.enclosures.some(one => one.id === id))?.enclosures ?? [])
      const order = stops.map(one => one.id)
      if (!order.includes(id)) throw new Failure('not-found')
      if (!seen.split(' ').includes(orderWord(kind === 'room' ? 'room' : 'enclosure', order)))
        throw new Failure('conflict')
      const next = numbered(stepped(order, id, way))
      await (kind === 'room' ? writeRoomOrder(entry, next) : writeEnclosureOrder(entry, next))
    },
  )
}
