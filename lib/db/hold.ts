/**
 * Promises of places: holds, booked departures, and everything that stands against one.
 * Promise: a hold is made or refused by the constraints under the enclosure's lock; the causes of a refusal are read
 * afterwards, all of them. Writes run inside an entry (entry.ts).
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { BrokenHold, HoldCause } from '#lib/domain/hold-cause.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

export type WantedHold = {
  readonly casualtyId: number
  readonly enclosureId: number
  readonly placeNo?: number | undefined
  readonly startsAt: Date
  readonly endsAt?: Date | undefined
  readonly expectedAt: Date
  readonly expiresAt: Date
  readonly needsIsolation: boolean
  readonly overrideReason?: string | undefined
}

/** Locks what several holds of one entry need, in the one order; before the first of them. */
export async function lockForHolds(
  { tx }: EntryTx,
  casualtyIds: readonly number[],
  enclosureIds: readonly number[],
): Promise<void> {
  await tx.$queryRaw`select lock_for_plans(${[...casualtyIds]}::int[], ${[...enclosureIds]}::int[])::text`
}

/** Keeps a place; without a number the lowest that is free. */
export async function createHold({ tx }: EntryTx, hold: WantedHold, at: Date): Promise<number> {
  const [made] = await tx.$queryRaw<{ id: number }[]>`
    select plan_hold(${hold.casualtyId}::int, ${hold.enclosureId}::int, ${hold.placeNo ?? null}::int,
      ${hold.startsAt}::timestamptz, ${hold.endsAt ?? null}::timestamptz, ${hold.expectedAt}::timestamptz,
      ${hold.expiresAt}::timestamptz, ${hold.needsIsolation}::boolean, ${hold.overrideReason ?? null}::text,
      ${at}::timestamptz) as id`
  return made?.id ?? 0
}

/** Gives a kept place back; false when it was not kept any more. */
export async function endHold({ tx }: EntryTx, claimId: number, at: Date): Promise<boolean> {
  const [done] = await tx.$queryRaw<{ ended: boolean }[]>`
    select release_hold(${claimId}::int, ${at}::timestamptz) as ended`
  return done?.ended ?? false
}

/** A place that was given up, and whether it is kept again. */
export type KeptAgain = { readonly enclosureId: number; readonly isKept: boolean }

/** Locks what taking back an ending of that instant may touch; before anything else of the entry. */
export async function lockForTakingBack({ tx }: EntryTx, casualtyId: number, endedAt: Date): Promise<void> {
  await tx.$queryRaw`select lock_for_taking_back(${casualtyId}::int, ${endedAt}::timestamptz)::text`
}

/** Keeps again what an animal gave up at an instant, where the place is still free. */
export async function keepAgain(
  { tx }: EntryTx,
  casualtyId: number,
  endedAt: Date,
  at: Date,
): Promise<KeptAgain[]> {
  return tx.$queryRaw<KeptAgain[]>`
    select enclosure_id as "enclosureId", is_kept as "isKept"
      from keep_again(${casualtyId}::int, ${endedAt}::timestamptz, ${at}::timestamptz)`
}

/** Books when an animal is expected to leave its enclosure; without a time the booking is taken back. */
export async function writeDeparture(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  leavesAt: Date | undefined,
  at: Date,
): Promise<void> {
  await tx.$queryRaw`
    select book_departure(${entryId}::int, ${casualtyId}::int, ${leavesAt ?? null}::timestamptz, ${at}::timestamptz)`
}

/** Everything that stands against a hold. */
export async function listCausesAgainst(
  _grant: Grant<'option.take' | 'casualty.record'>,
  hold: Pick<WantedHold, 'casualtyId' | 'enclosureId' | 'placeNo' | 'startsAt' | 'endsAt' | 'needsIsolation'>,
): Promise<HoldCause[]> {
  return db().$queryRaw<HoldCause[]>`
    select a.rule, c.reference, a.place_no as "placeNo", a.company_slug as company,
           a.starts_at as "startsAt", a.ends_at as "endsAt", a.places
      from causes_against(${hold.casualtyId}::int, ${hold.enclosureId}::int, ${hold.placeNo ?? null}::int,
             ${hold.startsAt}::timestamptz, ${hold.endsAt ?? null}::timestamptz, ${hold.needsIsolation}::boolean) a
      left join casualty c on c.id = a.casualty_id
     order by a.starts_at nulls first, a.claim_id`
}

/** The casualty and enclosure of a hold. */
export async function getHold(
  _grant: Grant<'system.run'>,
  claimId: number,
): Promise<{ readonly casualtyId: number; readonly enclosureId: number }> {
  const found = await db().claim.findFirst({
    where: { id: claimId, kind: 'hold' },
    select: { casualtyId: true, enclosureId: true },
  })
  if (found === null || found.casualtyId === null) throw new Failure('not-found')
  return { casualtyId: found.casualtyId, enclosureId: found.enclosureId }
}

/** For how long after its expected time a place is kept, by the network's policy. */
export async function getHoldMinutes(_grant: Grant<'option.take' | 'casualty.record'>): Promise<number> {
  const policy = await db().policy.findFirst({ select: { holdMinutes: true } })
  if (policy === null) throw new Failure('rule', { rule: 'network-not-set-up' })
  return policy.holdMinutes
}

/** The promises that what was just recorded at an instant has broken. */
export async function listBroken({ tx }: EntryTx, at: Date): Promise<BrokenHold[]> {
  return tx.$queryRaw<BrokenHold[]>`
    select c.id as "claimId", c.casualty_id as "casualtyId", a.reference, c.enclosure_id as "enclosureId",
           e.name as enclosure, c.expected_at as "expectedAt"
      from claim c join casualty a on a.id = c.casualty_id join enclosure e on e.id = c.enclosure_id
     where c.kind = 'hold' and c.state = 'broken' and c.ended_at = ${at}::timestamptz
     order by c.id`
}
