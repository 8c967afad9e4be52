/**
 * What a driver says of a leg, through its link or on the phone: "I have it", "delivered", "I can't".
 * Promise: one entry each. With "I have it" the driver is the keeper from that instant; with "delivered" the next
 * driver is, or the centre it goes to, in the place that was kept. "I can't" tells the line and changes no keeper and no
 * kept place: a person decides. What was said twice counts once.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { type Fact, type Keeper, recordFacts } from '#lib/db/keeping.ts'
import {
  endLegs,
  findFormerPlace,
  findHeldPlace,
  getJourneyOfLeg,
  type LockedJourney,
  type LockedLeg,
  lockJourney,
  noteMoved,
  takeUpLeg,
  updateReason,
} from '#lib/db/road.ts'
import { parse } from '#lib/domain/parse.ts'
import { type DriveSaid, driveInput } from '#lib/domain/road.ts'
import { Failure } from '#lib/kernel/failure.ts'

export type MayDrive = Grant<'system.run' | 'move.arrange'>

/** What a driver said on the phone, as the desk writes it down. */
export async function driveByPhone(actor: Actor, legId: number, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'move.arrange')
  return drive(grant, legId, parse(driveInput, input), now)
}

/** Writes what was said and returns the journey's number. `first` runs in the same entry, under the same locks. */
export async function drive(
  grant: MayDrive,
  legId: number,
  said: DriveSaid,
  now: Date,
  first: (entry: EntryTx) => Promise<void> = async () => {},
): Promise<number> {
  const journeyId = await getJourneyOfLeg(demand(systemActor('whose leg'), 'system.run'), legId)
  await inEntry(
    grant,
    {
      now,
      action: `leg ${said.say}`,
      subject: 'journey',
      subjectId: journeyId,
      columns: ['leg.state', 'keeper'],
    },
    async entry => {
      const journey = await lockJourney(entry.tx, journeyId)
      const leg = journey.legs.find(({ id }) => id === legId)
      if (leg === undefined) throw new Failure('not-found')
      await first(entry)
      await write(entry, journey, leg, said, now)
      if (said.say !== 'cant') await noteMoved(entry, grant.actor, journey.casualtyIds, now)
    },
  )
  return journeyId
}

async function write(
  entry: EntryTx,
  journey: LockedJourney,
  leg: LockedLeg,
  said: DriveSaid,
  now: Date,
): Promise<void> {
  switch (said.say) {
    case 'have':
      return takeUp(entry, journey, leg, now)
    case 'delivered':
      return deliver(entry, journey, leg, now)
    case 'cant':
      return giveUp(entry, leg, said.reason, now)
  }
}

async function takeUp(entry: EntryTx, journey: LockedJourney, leg: LockedLeg, now: Date): Promise<void> {
  if (leg.state === 'on the road' || leg.state === 'delivered') return
  if (leg.state !== 'planned') throw new Failure('conflict', { rule: 'leg-over' })
  await recordFacts(
    entry,
    factsOf(journey, () => driverOf(leg), now),
    now,
  )
  await takeUpLeg(entry.tx, leg.id, now)
}

async function deliver(entry: EntryTx, journey: LockedJourney, leg: LockedLeg, now: Date): Promise<void> {
  if (leg.state === 'delivered') return
  if (leg.state === 'planned') throw new Failure('conflict', { rule: 'leg-not-begun' })
  if (leg.state !== 'on the road') throw new Failure('conflict', { rule: 'leg-over' })
  const next = journey.legs.find(one => one.legNo > leg.legNo && one.state === 'planned')
  if (next !== undefined) {
    await recordFacts(
      entry,
      factsOf(journey, () => driverOf(next), now),
      now,
    )
    return takeUpLeg(entry.tx, next.id, now)
  }
  const kept = new Map<number, Keeper>()
  for (const id of journey.casualtyIds) kept.set(id, await arrivesAt(entry, journey, id))
  await endLegs(entry.tx, [leg.id], 'delivered', now)
  await recordFacts(
    entry,
    factsOf(journey, id => kept.get(id) ?? driverOf(leg), now),
    now,
  )
}

async function giveUp({ tx }: EntryTx, leg: LockedLeg, reason: string | null, now: Date): Promise<void> {
  if (leg.state === 'cant') return
  if (leg.state !== 'planned' && leg.state !== 'on the road')
    throw new Failure('conflict', { rule: 'leg-over' })
  await updateReason(tx, leg.id, reason)
  await endLegs(tx, [leg.id], 'cant', now)
}

function driverOf({ driverId }: LockedLeg): Keeper {
  return driverId === null ? { keeper: 'finder' } : { keeper: 'driver', driverId }
}

function factsOf({ casualtyIds }: LockedJourney, keeperOf: (id: number) => Keeper, now: Date): Fact[] {
  return casualtyIds.map(casualtyId => ({ casualtyId, since: now, ...keeperOf(casualtyId) }))
}

/** The practice; or the centre with the place that was kept there, and without one the building. */
async function arrivesAt({ tx }: EntryTx, journey: LockedJourney, casualtyId: number): Promise<Keeper> {
  const { toPracticeId, toCentreId, fromCentreId, turnedAt } = journey
  if (turnedAt !== null && fromCentreId !== null) {
    const former = await findFormerPlace(tx, casualtyId, fromCentreId)
    return atCentre(fromCentreId, former)
  }
  if (toPracticeId !== null) return { keeper: 'practice', practiceId: toPracticeId }
  if (toCentreId === null) throw new Failure('not-found')
  return atCentre(toCentreId, await findHeldPlace(tx, casualtyId, toCentreId))
}

function atCentre(
  centreId: number,
  place: { readonly enclosureId: number; readonly placeNo: number | null } | null,
): Keeper {
  if (place === null) return { keeper: 'centre', centreId }
  return { keeper: 'centre', enclosureId: place.enclosureId, placeNo: place.placeNo ?? undefined }
}
