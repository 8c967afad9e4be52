/**
 * Plans for places: keeping one for somebody expected, giving it back, booking a departure.
 * Promise: a plan that breaks a rule is refused by the database, and the refusal says everything that stands against
 * it, not the first thing only.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import {
  createHold,
  endHold,
  getHold,
  getHoldMinutes,
  listCausesAgainst,
  type WantedHold,
  writeDeparture,
} from '#lib/db/hold.ts'
import { parseAt } from '#lib/domain/parse.ts'
import { departureInput, holdInput } from '#lib/domain/record.ts'
import { Failure, isFailure } from '#lib/kernel/failure.ts'
import { causesWords } from '#lib/words/hold-cause.ts'
import { centreOf, demandOn, momentOf, type Recorded, record } from './about-casualty.ts'

const MS_PER_MINUTE = 60_000

/** Keeps a place for a casualty and returns the hold's number. Failure names what stands against it, all of it. */
export async function holdPlace(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const moment = await momentOf(now)
  const said = parseAt(holdInput, moment, input)
  const toCentreId = await centreOf(said.enclosureId)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    toCentreId,
    action: 'place kept',
    columns: ['enclosure_id', 'place_no', 'starts_at', 'expires_at'],
    reason: said.overrideReason,
  } as const
  const grant = await demandOn(actor, about)
  const expectedAt = said.expectedAt ?? said.startsAt
  const wanted: WantedHold = {
    ...said,
    casualtyId,
    expectedAt,
    expiresAt:
      said.expiresAt ?? new Date(expectedAt.getTime() + (await getHoldMinutes(grant)) * MS_PER_MINUTE),
  }
  try {
    return await record(actor, about, now, entry => createHold(entry, wanted, now))
  } catch (thrown) {
    throw await withCauses(grant, thrown, wanted, moment.zone)
  }
}

/** Gives a kept place back. */
export async function releaseHold(actor: Actor, holdId: number, now: Date): Promise<Recorded<boolean>> {
  const { casualtyId, enclosureId } = await getHold(demand(systemActor('whose hold'), 'system.run'), holdId)
  const toCentreId = await centreOf(enclosureId)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    toCentreId,
    action: 'place given back',
    columns: ['state'],
  } as const
  return record(actor, about, now, entry => endHold(entry, holdId, now))
}

/** Books when an animal is expected to leave its enclosure; from then on the place can be promised. */
export async function bookDeparture(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded> {
  const { leavesAt } = parseAt(departureInput, await momentOf(now), input)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: 'departure booked',
    columns: ['at'],
  } as const
  return record(actor, about, now, entry => writeDeparture(entry, casualtyId, leavesAt, now))
}

/** The same refusal, with every cause in words. Other things that were thrown come back as they are. */
export async function withCauses(
  grant: Grant<'option.take' | 'casualty.record'>,
  thrown: unknown,
  wanted: Parameters<typeof listCausesAgainst>[1],
  zone: string,
): Promise<unknown> {
  if (!isFailure(thrown) || thrown.rule === undefined || thrown.code === 'not-found') return thrown
  const causes = await listCausesAgainst(grant, wanted)
  const [say, ...also] = causesWords(causes, zone)
  if (say === undefined) return thrown
  return new Failure(thrown.code, {
    rule: thrown.rule,
    data: { say, also, causes },
    cause: thrown,
    ...(thrown.field !== undefined && { field: thrown.field }),
  })
}
