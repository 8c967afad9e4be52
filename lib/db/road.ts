/**
 * Journeys and their legs: planned, taken up, delivered, given to somebody else, ended.
 * Promise: written under the locks of the journey's open animals, then of the journey; who has the animals is written
 * by keeping alone. Writes run inside an entry (entry.ts).
 */
import 'server-only'
import type { Actor } from '#lib/authz/actor.ts'
import type { Grant } from '#lib/authz/demand.ts'
import type { LegPlan, LegState } from '#lib/domain/road.ts'
import { LEG_STATES } from '#lib/domain/road.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

type Tx = EntryTx['tx']

export type NewJourney = {
  readonly fromCentreId: number | null
  readonly to: { readonly kind: 'centre' | 'practice'; readonly id: number }
  readonly carry: string
  readonly casualtyIds: readonly number[]
  readonly legs: readonly LegPlan[]
  readonly madeAt: Date
  readonly madeBy: number | null
}

/** Where an animal is now, as far as a journey needs it. */
export type StartsFrom = {
  readonly casualtyId: number
  readonly keeper: string
  readonly centreId: number | null
}

/** Locks the animals of a journey that is planned and says where each is. Failure 'not-found' where one is nowhere. */
export async function lockStart(tx: Tx, casualtyIds: readonly number[]): Promise<StartsFrom[]> {
  const ids = [...casualtyIds]
  await tx.$queryRaw`
    select id from casualty where id = any (${ids}::int[]) order by id for no key update`
  const rows = await tx.$queryRaw<StartsFrom[]>`
    select casualty_id as "casualtyId", keeper, centre_id as "centreId"
      from whereabouts where casualty_id = any (${ids}::int[]) and until is null order by casualty_id`
  if (rows.length !== new Set(ids).size) throw new Failure('not-found')
  return rows
}

/** The movement stop that stands against bringing an animal to a centre, by its rule. */
export async function findStop(
  tx: Tx,
  casualtyId: number,
  centreId: number,
  at: Date,
): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ rule: string | null }[]>`
    select stop_against(${casualtyId}::int, ${centreId}::int, ${at}::timestamptz, null, false) as rule`
  return row?.rule ?? null
}

/** Minutes after which a leg that is not there is told as late. */
export async function getLateMinutes(tx: Tx): Promise<number> {
  const policy = await tx.policy.findFirst({ select: { lateMinutes: true } })
  if (policy === null) throw new Failure('rule', { rule: 'network-not-set-up' })
  return policy.lateMinutes
}

/** Writes a journey with its animals and legs; the first leg's alarm runs from its pick-up. */
export async function insertJourney(tx: Tx, journey: NewJourney, lateMinutes: number): Promise<number> {
  const { to, casualtyIds, legs, ...rest } = journey
  const { id } = await tx.journey.create({
    data: {
      ...rest,
      toCentreId: to.kind === 'centre' ? to.id : null,
      toPracticeId: to.kind === 'practice' ? to.id : null,
    },
    select: { id: true },
  })
  await tx.journeyAnimal.createMany({ data: casualtyIds.map(casualtyId => ({ journeyId: id, casualtyId })) })
  for (const [at, leg] of legs.entries()) {
    await insertLeg(tx, {
      journeyId: id,
      legNo: at + 1,
      leg,
      alarmAt: at === 0 ? alarmOf(leg, lateMinutes) : null,
    })
  }
  return id
}

type NewLeg = {
  readonly journeyId: number
  readonly legNo: number
  readonly leg: LegPlan
  readonly alarmAt: Date | null
}

export async function insertLeg(tx: Tx, { journeyId, legNo, leg, alarmAt }: NewLeg): Promise<number> {
  const { driver, ...planned } = leg
  const { id } = await tx.leg.create({
    data: { ...planned, journeyId, legNo, alarmAt, driverId: driver.kind === 'driver' ? driver.id : null },
    select: { id: true },
  })
  return id
}

/** Until when a leg may not have been picked up before it is late. */
export function alarmOf(leg: Pick<LegPlan, 'pickUpAt'>, lateMinutes: number): Date {
  return new Date(leg.pickUpAt.getTime() + lateMinutes * 60_000)
}

/** Every driver of a plan is switched on. */
export async function requireDrivers(tx: Tx, legs: readonly Pick<LegPlan, 'driver'>[]): Promise<void> {
  for (const [at, { driver }] of legs.entries()) {
    if (driver.kind === 'finder') continue
    const count = await tx.driver.count({ where: { id: driver.id, isActive: true } })
    if (count === 0) throw new Failure('rule', { rule: 'driver-switched-off', field: `legs.${at}.driver` })
  }
}

export type LockedLeg = {
  readonly id: number
  readonly legNo: number
  readonly driverId: number | null
  readonly state: LegState
  readonly hasItAt: Date | null
  readonly dueAt: Date
}
export type LockedJourney = {
  readonly id: number
  readonly fromCentreId: number | null
  readonly toCentreId: number | null
  readonly toPracticeId: number | null
  readonly turnedAt: Date | null
  readonly endedAt: Date | null
  /** Those still on it. */
  readonly casualtyIds: readonly number[]
  readonly legs: readonly LockedLeg[]
}

/** A journey as it stands, held with its open animals until the entry ends. */
export async function lockJourney(tx: Tx, journeyId: number): Promise<LockedJourney> {
  await tx.$queryRaw`select lock_journey(${journeyId}::int)::text`
  const row = await tx.journey.findUnique({
    where: { id: journeyId },
    include: {
      legs: { orderBy: [{ legNo: 'asc' }, { id: 'asc' }] },
      animals: { where: { state: 'open' }, orderBy: { casualtyId: 'asc' } },
    },
  })
  if (row === null) throw new Failure('not-found')
  return {
    ...row,
    casualtyIds: row.animals.map(({ casualtyId }) => casualtyId),
    legs: row.legs.map(({ state, ...leg }) => ({ ...leg, state: legStateOf(state) })),
  }
}

/** The journey of a leg. */
export async function getJourneyOfLeg(
  _grant: Grant<'system.run' | 'move.arrange'>,
  legId: number,
): Promise<number> {
  const found = await db().leg.findUnique({ where: { id: legId }, select: { journeyId: true } })
  if (found === null) throw new Failure('not-found')
  return found.journeyId
}

/** The leg is on the road from an instant on; the one before it is delivered then. */
export async function takeUpLeg(tx: Tx, legId: number, at: Date): Promise<void> {
  await tx.$queryRaw`select take_up_leg(${legId}::int, ${at}::timestamptz)::text`
}

/** Ends legs that run or are planned, with their links. */
export async function endLegs(
  tx: Tx,
  legIds: readonly number[],
  state: 'delivered' | 'cant' | 'called-off',
  at: Date,
): Promise<void> {
  await tx.$queryRaw`select end_legs(${[...legIds]}::int[], ${state}::text, ${at}::timestamptz)::text`
}

/** Why a driver can't. */
export async function updateReason(tx: Tx, legId: number, reason: string | null): Promise<void> {
  await tx.leg.update({ where: { id: legId }, data: { reason } })
}

export async function updateTurned(tx: Tx, journeyId: number, at: Date): Promise<void> {
  await tx.journey.update({ where: { id: journeyId }, data: { turnedAt: at } })
}

/** A journey that never began is called off. */
export async function endUnbegun(tx: Tx, journeyId: number, at: Date): Promise<void> {
  await tx.journeyAnimal.updateMany({ where: { journeyId, state: 'open' }, data: { state: 'called-off' } })
  await tx.$queryRaw`select end_journey(${journeyId}::int, ${at}::timestamptz)::text`
}

/** The place kept for an animal at a centre. */
export async function findHeldPlace(
  tx: Tx,
  casualtyId: number,
  centreId: number,
): Promise<{ readonly enclosureId: number; readonly placeNo: number | null } | null> {
  return tx.claim.findFirst({
    where: { casualtyId, kind: 'hold', state: 'live', enclosure: { centreId } },
    orderBy: { id: 'asc' },
    select: { enclosureId: true, placeNo: true },
  })
}

/** The enclosure an animal left, where it goes back to its centre. */
export async function findFormerPlace(
  tx: Tx,
  casualtyId: number,
  centreId: number,
): Promise<{ readonly enclosureId: number; readonly placeNo: number | null } | null> {
  const row = await tx.whereabouts.findFirst({
    where: { casualtyId, centreId, until: { not: null } },
    orderBy: { since: 'desc' },
    select: { enclosureId: true },
  })
  return row?.enclosureId == null ? null : { enclosureId: row.enclosureId, placeNo: null }
}

/** Each animal has a line of its own in the audit, so that whoever looks at it hears of it. */
export async function noteMoved(
  { tx }: EntryTx,
  actor: Actor,
  casualtyIds: readonly number[],
  at: Date,
): Promise<void> {
  await tx.audit.createMany({
    data: casualtyIds.map(id => ({
      at,
      personId: actor.personId,
      actorWords: actor.kind === 'system' ? actor.reason : actor.name,
      action: 'moved',
      subject: 'casualty',
      subjectId: String(id),
      columns: ['since', 'keeper'],
    })),
  })
}

/** Legs whose lateness has to be told; how many, at most twenty a claim. */
export async function claimLateLegs(_grant: Grant<'system.run'>, at: Date): Promise<number> {
  const [row] = await db().$queryRaw<{ count: number }[]>`
    select claim_late_legs(${at}::timestamptz) as count`
  return row?.count ?? 0
}

export function legStateOf(text: string): LegState {
  return LEG_STATES.find(state => state === text) ?? 'called-off'
}
