/**
 * Arranging journeys at the desk: planning one, giving a leg to another driver, turning back, calling off, links.
 * Promise: a plan that a movement stop forbids is refused with its sentence; the place kept where it goes waits for
 * the last leg, and one that was not kept yet is, where a proper one is free. Nothing here moves an animal.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import { delayHoldsAt, endHoldsAt, holdFirstFree } from '#lib/db/ask-turn.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { createLink, revokeLinks } from '#lib/db/link.ts'
import {
  alarmOf,
  endLegs,
  endUnbegun,
  findStop,
  getJourneyOfLeg,
  getLateMinutes,
  insertJourney,
  insertLeg,
  type LockedJourney,
  lockJourney,
  lockStart,
  requireDrivers,
  type StartsFrom,
  updateTurned,
} from '#lib/db/road.ts'
import { freePlaces } from '#lib/domain/free-place.ts'
import { parseAt } from '#lib/domain/parse.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import { type JourneyPlan, journeyInput, LINK_HOURS, otherDriverInput } from '#lib/domain/road.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { momentOf } from './about-casualty.ts'
import { newToken } from './link.ts'
import { readState } from './network.ts'

const MS_PER_MINUTE = 60_000
const MS_PER_HOUR = 3_600_000

type Arranges = Grant<'move.arrange'>
type Places = ReadonlyMap<
  number,
  { readonly enclosureIds: readonly number[]; readonly needsIsolation: boolean }
>

/** Plans a journey and returns its number. */
export async function planJourney(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'move.arrange')
  const plan = parseAt(journeyInput, await momentOf(now), input)
  const { places, holdMinutes } = await readPlaces(plan, now)
  return inEntry(
    grant,
    {
      now,
      action: 'journey planned',
      subject: 'journey',
      subjectId: (id: number) => id,
      columns: ['to', 'legs'],
    },
    async ({ tx }) => {
      const starts = await lockStart(tx, plan.animals)
      const fromCentreId = startOf(starts, plan)
      await requireDrivers(tx, plan.legs)
      if (plan.to.kind === 'centre') await refuseStopped(tx, plan.animals, plan.to.id, now)
      const id = await insertJourney(
        tx,
        {
          fromCentreId,
          to: plan.to,
          carry: plan.carry,
          casualtyIds: plan.animals,
          legs: plan.legs,
          madeAt: now,
          madeBy: grant.actor.personId,
        },
        await getLateMinutes(tx),
      )
      await keepFor(tx, plan, places, holdMinutes, now)
      return id
    },
  )
}

/** Where the animals set off, all from one place. */
function startOf(starts: readonly StartsFrom[], { legs }: JourneyPlan): number | null {
  const [first] = starts
  if (first === undefined || starts.some(one => one.keeper === 'nobody')) {
    throw new Failure('rule', { rule: 'journey-of-an-open-casualty', field: 'animals' })
  }
  if (starts.some(one => one.keeper !== first.keeper || one.centreId !== first.centreId)) {
    throw new Failure('rule', { rule: 'journey-from-one-place', field: 'animals' })
  }
  if (first.keeper !== 'finder' && legs.some(({ driver }) => driver.kind === 'finder')) {
    throw new Failure('rule', { rule: 'journey-finder-has-none', field: 'legs.0.driver' })
  }
  return first.centreId
}

async function refuseStopped(
  tx: EntryTx['tx'],
  casualtyIds: readonly number[],
  centreId: number,
  now: Date,
): Promise<void> {
  for (const id of casualtyIds) {
    const rule = await findStop(tx, id, centreId, now)
    if (rule !== null) throw new Failure('rule', { rule, field: 'to' })
  }
}

/** Places that could be kept where it goes, best first, read before the transaction. */
async function readPlaces(
  { animals, to, legs }: JourneyPlan,
  now: Date,
): Promise<{ readonly places: Places; readonly holdMinutes: number }> {
  const { state, trade } = await readState(now)
  const dueAt = legs.at(-1)?.dueAt ?? now
  const places = new Map(
    animals.flatMap(id => {
      const resident = state.residents.find(one => one.id === id)
      const planned =
        resident?.stages.find(({ no }) => no === (resident.began?.no ?? 1)) ?? resident?.stages[0]
      if (to.kind !== 'centre' || resident === undefined || planned === undefined) return []
      const need = plannedNeed(resident, planned, trade)
      const enclosureIds = [...new Set(freePlaces(state, to.id, need, dueAt).map(one => one.enclosureId))]
      return [[id, { enclosureIds, needsIsolation: need.needsIsolation }] as const]
    }),
  )
  return { places, holdMinutes: state.policy.hold_minutes }
}

async function keepFor(
  tx: EntryTx['tx'],
  { animals, to, legs }: JourneyPlan,
  places: Places,
  holdMinutes: number,
  now: Date,
): Promise<void> {
  const expectedAt = legs.at(-1)?.dueAt
  if (to.kind !== 'centre' || expectedAt === undefined) return
  const expiresAt = new Date(expectedAt.getTime() + holdMinutes * MS_PER_MINUTE)
  const kept = await delayHoldsAt(tx, animals, to.id, { expectedAt, expiresAt })
  for (const casualtyId of animals.filter(id => !kept.includes(id))) {
    const free = places.get(casualtyId)
    if (free === undefined || free.enclosureIds.length === 0) continue
    await holdFirstFree(tx, { casualtyId, ...free, startsAt: expectedAt, expectedAt, expiresAt }, now)
  }
}

/** Gives a leg to another driver, or in other words and hours; whoever had it on the road keeps it until it is met. */
export async function giveLegOn(actor: Actor, legId: number, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'move.arrange')
  const leg = parseAt(otherDriverInput, await momentOf(now), input)
  return onJourneyOfLeg(
    grant,
    legId,
    { now, action: 'leg given on', columns: ['leg'] },
    async (tx, journey) => {
      const before = journey.legs.find(({ id }) => id === legId)
      if (before === undefined) throw new Failure('not-found')
      if (before.state === 'delivered') throw new Failure('conflict', { rule: 'leg-over' })
      await requireDrivers(tx, [leg])
      await endLegs(tx, [legId], before.state === 'planned' ? 'called-off' : 'cant', now)
      const isNext = !journey.legs.some(
        one => one.legNo < before.legNo && (one.state === 'planned' || one.state === 'on the road'),
      )
      const alarmAt = isNext ? alarmOf(leg, await getLateMinutes(tx)) : null
      await insertLeg(tx, { journeyId: journey.id, legNo: before.legNo, leg, alarmAt })
    },
  )
}

/** It turns back to the centre it came from; the place kept where it went is given up. */
export async function turnBack(actor: Actor, journeyId: number, now: Date): Promise<void> {
  const grant = demand(actor, 'move.arrange')
  await onJourney(
    grant,
    journeyId,
    { now, action: 'turned back', columns: ['turned_at'] },
    async (tx, journey) => {
      if (journey.fromCentreId === null) throw new Failure('rule', { rule: 'journey-nowhere-back' })
      if (journey.turnedAt !== null) throw new Failure('conflict', { rule: 'journey-turned-already' })
      if (!hasBegun(journey)) throw new Failure('rule', { rule: 'journey-not-begun' })
      await updateTurned(tx, journey.id, now)
      const planned = journey.legs.filter(({ state }) => state === 'planned').map(({ id }) => id)
      await endLegs(tx, planned, 'called-off', now)
      if (journey.toCentreId !== null) {
        await endHoldsAt(tx, journey.casualtyIds, journey.toCentreId, 'given-up', now)
      }
    },
  )
}

/** A journey that nobody began is called off; the place that was kept stays until somebody gives it back. */
export async function callJourneyOff(actor: Actor, journeyId: number, now: Date): Promise<void> {
  const grant = demand(actor, 'move.arrange')
  await onJourney(
    grant,
    journeyId,
    { now, action: 'journey called off', columns: ['ended_at'] },
    async (tx, journey) => {
      if (hasBegun(journey)) throw new Failure('rule', { rule: 'journey-begun' })
      await endUnbegun(tx, journey.id, now)
    },
  )
}

/** A link for the driver of a leg, whose token is known to nobody else; one made before opens nothing any more. */
export async function makeLegLink(actor: Actor, legId: number, now: Date): Promise<string> {
  const grant = demand(actor, 'move.arrange')
  const { token, tokenHash } = newToken()
  await onJourneyOfLeg(grant, legId, { now, action: 'link made', columns: [] }, async (tx, journey) => {
    const leg = journey.legs.find(({ id }) => id === legId)
    if (leg === undefined || (leg.state !== 'planned' && leg.state !== 'on the road')) {
      throw new Failure('conflict', { rule: 'leg-over' })
    }
    const subject = { purpose: 'leg', legId } as const
    await revokeLinks(tx, subject, now)
    const from = Math.max(leg.dueAt.getTime(), now.getTime())
    await createLink(tx, {
      tokenHash,
      subject,
      madeAt: now,
      madeBy: grant.actor.personId,
      expiresAt: new Date(from + LINK_HOURS * MS_PER_HOUR),
    })
  })
  return token
}

type Doing = { readonly now: Date; readonly action: string; readonly columns: readonly string[] }
type Work = (tx: EntryTx['tx'], journey: LockedJourney) => Promise<void>

async function onJourneyOfLeg(grant: Arranges, legId: number, doing: Doing, work: Work): Promise<number> {
  const journeyId = await getJourneyOfLeg(grant, legId)
  await onJourney(grant, journeyId, doing, work)
  return journeyId
}

/** A journey that runs, under its locks. */
async function onJourney(grant: Arranges, journeyId: number, doing: Doing, work: Work): Promise<void> {
  await inEntry(grant, { ...doing, subject: 'journey', subjectId: journeyId }, async ({ tx }) => {
    const journey = await lockJourney(tx, journeyId)
    if (journey.endedAt !== null) throw new Failure('conflict', { rule: 'journey-over' })
    await work(tx, journey)
  })
}

function hasBegun({ legs }: LockedJourney): boolean {
  return legs.some(({ hasItAt }) => hasItAt !== null)
}
