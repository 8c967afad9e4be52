/**
 * How animals come in the fortnight: after a call whose option was taken, after a call answered by word, or at the door.
 * The option that is taken is the first that admits where the animal came to; the decision keeps all that were shown.
 */

import type { PersonActor } from '#lib/authz/actor.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import { openCall, readCall, saveSheet } from '#lib/service/call.ts'
import { recordCameIn } from '#lib/service/door.ts'
import { answerCall } from '#lib/service/option.ts'
import { takeOption } from '#lib/service/take-option.ts'
import type { Moment } from '../history/moment.ts'
import type { Casualty } from '../history/types.ts'
import { CALL_TAKES_MINUTES, factsTold, type Told } from '../scenario/calls.ts'
import { actorOf, carerAt } from './actors.ts'
import type { Live, Step } from './live.ts'

const MS_PER_MINUTE = 60_000
const OTHER_DOOR = 'The finder would rather drive there'

/** A call taken on the line, and its answer some minutes later. */
export function callSteps(live: Live, told: Told, together: readonly Casualty[]): Step[] {
  const actor = actorOf(told.takenBy)
  let callId = 0
  return [
    {
      at: told.at,
      run: async now => {
        callId = await openCall(actor, now)
        await saveSheet(actor, callId, undefined, sheetOf(live, told), now)
        live.count('calls taken')
      },
    },
    {
      at: told.at + CALL_TAKES_MINUTES * MS_PER_MINUTE,
      run: now => answer(live, actor, callId, together, now),
    },
  ]
}

/** Animals that came without an option taken. */
export async function comeToTheDoor(
  live: Live,
  { arrived }: Moment,
  callId: number | null,
  now: Date,
): Promise<void> {
  const [first] = arrived
  if (first === undefined) return
  const found = first.changes[0]?.at ?? first.arrival.at
  const centreId = centreOf(first)
  const input = { centreId, callId, foundAt: new Date(found), facts: factsOf(first, arrived.length) }
  const ids = await recordCameIn(carerAt(centreId), input, now, live.random)
  nameAll(live, arrived, ids)
  live.count('came to the door')
}

async function answer(
  live: Live,
  actor: PersonActor,
  callId: number,
  together: readonly Casualty[],
  now: Date,
): Promise<void> {
  const { facts } = await readCall(actor, callId)
  const { ranked } = await answerCall(actor, facts, now)
  const options = ranked?.options ?? []
  const [first] = together
  const option =
    first === undefined ? options.find(one => one.kind === 'redirect') : admitting(options, first)
  if (option === undefined) throw new RangeError(`call ${callId} needs an option that fits, got none`)
  const input = {
    key: option.key,
    places: option.placesTonight.length,
    agreedBy: option.askFirst === null ? '' : carerAt(Number(option.to?.id)).name,
    reason: option === options[0] ? '' : OTHER_DOOR,
  }
  const { decisionId } = await takeOption(actor, callId, input, now, live.random)
  live.count('options taken')
  const ids = await live.ids(
    `select c.id from casualty c join decision d on d.arrival_id = c.arrival_id where d.id = $1 order by c.id`,
    [decisionId],
  )
  nameAll(live, together, ids)
}

function admitting(options: readonly PlacementOption[], casualty: Casualty): PlacementOption | undefined {
  const admits = options.filter(({ kind }) => kind === 'admit' || kind === 'admit and move')
  return admits.find(({ to }) => to?.id === String(centreOf(casualty))) ?? admits[0]
}

function nameAll(live: Live, together: readonly Casualty[], ids: readonly number[]): void {
  if (ids.length !== together.length) throw new RangeError(`ids needs ${together.length}, got ${ids.length}`)
  together.forEach((casualty, nth) => {
    live.know(casualty, ids[nth] ?? 0)
  })
}

/** Where it was taken in, which need not be where it was brought first. */
function centreOf({ changes, arrival }: Casualty): number {
  return changes.find(change => change.keeper === 'centre')?.centreId ?? arrival.centreId
}

function factsOf(casualty: Casualty, count: number) {
  return factsTold({
    at: casualty.arrival.at,
    place: casualty.arrival.foundWords,
    species: casualty.animal.species,
    age: casualty.animal.age,
    count,
    condition: casualty.findings[0]?.condition ?? 'any-reason',
    severity: casualty.findings[0]?.severity ?? 'any',
    arrivalId: casualty.arrival.id,
    finder: { name: '', phone: '' },
    takenBy: 'Marit Sollwyn',
  })
}

function sheetOf({ trade }: Live, told: Told) {
  const place = trade.places.find(one => one.name === told.place)
  return {
    animalTyped: trade.speciesBySlug.get(told.species)?.common_name ?? '',
    species: told.species,
    age: told.age,
    count: String(told.count),
    ...(told.count > 1 && { isBrood: 'on' }),
    whereTyped: told.place,
    place: String(place?.id ?? ''),
    conditions: [told.condition],
    severity: { [told.condition]: told.severity },
    finderName: told.finder.name,
    finderPhone: told.finder.phone,
  }
}
