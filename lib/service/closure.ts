/**
 * Closing and opening: enclosures, sites under a movement stop; cleaned, counted.
 * Promise: a closure with occupants is saved and answers with the promises it broke; who is in it then shows as
 * without a proper place. A stop reaches every hold that it covers in the same commit.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import {
  endClosure,
  getEnclosureOfClosure,
  writeCleaning,
  writeClosure,
  writeCounted,
  writeSiteState,
} from '#lib/db/closure.ts'
import { inEntry } from '#lib/db/entry.ts'
import { listBroken } from '#lib/db/hold.ts'
import { parseAt } from '#lib/domain/parse.ts'
import { closingInput, siteStateInput } from '#lib/domain/record.ts'
import { centreOf, momentOf, type Recorded } from './about-casualty.ts'

/** Closes an enclosure, whoever is in it; returns the closure's number. */
export async function closeEnclosure(
  actor: Actor,
  enclosureId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const grant = demand(actor, 'setup.closures')
  const closing = parseAt(closingInput, await momentOf(now), input)
  return inEntry(
    grant,
    { now, action: 'closed', subject: 'enclosure', subjectId: enclosureId, reason: closing.reason },
    async entry => ({
      made: await writeClosure(entry, { ...closing, enclosureId }, now),
      broken: await listBroken(entry, now),
    }),
  )
}

/** Ends a closure now. */
export async function liftClosure(actor: Actor, closureId: number, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.closures')
  const enclosureId = await getEnclosureOfClosure(
    demand(systemActor('enclosure of a closure'), 'system.run'),
    closureId,
  )
  await inEntry(grant, { now, action: 'opened', subject: 'enclosure', subjectId: enclosureId }, entry =>
    endClosure(entry, closureId, now),
  )
}

/** It is clean: whatever was drying in the enclosure is dry. */
export async function markClean(actor: Actor, enclosureId: number, now: Date): Promise<void> {
  const grant = demand(actor, 'casualty.record', { centreIds: [await centreOf(enclosureId)] })
  await inEntry(grant, { now, action: 'cleaned', subject: 'enclosure', subjectId: enclosureId }, entry =>
    writeCleaning(entry, enclosureId, now),
  )
}

/** Sets a site's state; returns the promises that a stop broke. */
export async function setSiteState(
  actor: Actor,
  centreId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const grant = demand(actor, 'site-state.change')
  const { state, covers, endsAt, reason } = parseAt(siteStateInput, await momentOf(now), input)
  const coversClass = covers === 'all' ? null : covers
  return inEntry(
    grant,
    { now, action: `site ${state}`, subject: 'centre', subjectId: centreId, reason },
    async entry => ({
      made: await writeSiteState(entry, { centreId, state, coversClass, endsAt, reason }, now),
      broken: await listBroken(entry, now),
    }),
  )
}

/** "As shown": somebody went round the centre, and the picture is right. */
export async function countCentre(actor: Actor, centreId: number, now: Date): Promise<void> {
  const grant = demand(actor, 'casualty.record', { centreIds: [centreId] })
  await inEntry(
    grant,
    { now, action: 'counted', subject: 'centre', subjectId: centreId, columns: ['counted_at'] },
    async entry => {
      await writeCounted(entry, centreId, now)
    },
  )
}
