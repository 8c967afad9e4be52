/**
 * Due times, claimed a few at a time so that several processes can share the work.
 * Promise: each is claimed once (skip locked, guarded by its state), with its audit row in the same statement.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { COUNT_HOURS_MAX } from '#lib/domain/due.ts'
import type { Age } from '#lib/domain/species.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

/** How many are claimed at once: a claim holds their locks until it is done. */
export const CLAIM_COUNT_MAX = 20

type Counted = readonly [{ readonly count: number }]

/** Holds whose time ran out: their places are free again. How many there were, at most `CLAIM_COUNT_MAX`. */
export async function expireDueHolds(_grant: Grant<'system.run'>, at: Date): Promise<number> {
  const [{ count }] = await db().$queryRaw<Counted>`select expire_due_holds(${at}::timestamptz)::int as count`
  return count
}

/** Tells open pages what fell due since the last time; how much it was, 0 where another process is at it. */
export async function tellWhatFellDue(_grant: Grant<'system.run'>, at: Date): Promise<number> {
  const [{ count }] = await db().$queryRaw<Counted>`
    select tell_what_fell_due(${at}::timestamptz, ${COUNT_HOURS_MAX}::int)::int as count`
  return count
}

export type Seasonal = {
  readonly id: number
  readonly speciesSlug: string
  readonly age: Age
  readonly isAlone: boolean
}

/** Those in care of a species that keeps apart for a season only. */
export async function listSeasonal(_grant: Grant<'system.run'>): Promise<Seasonal[]> {
  return db().$queryRaw<Seasonal[]>`
    select c.id, c.species_slug as "speciesSlug", c.age, c.is_alone as "isAlone"
      from whereabouts w
      join casualty c on c.id = w.casualty_id
      join species s on s.slug = c.species_slug and s.adult_alone = 'season' and not s.is_stand_in
     where w.until is null and w.keeper <> 'nobody'
     order by c.id`
}

/** From an instant on it must be alone, or need not. Failure 'conflict' when somebody has it in hand, or did so. */
export async function setAlone(
  { tx }: EntryTx,
  casualtyId: number,
  isAlone: boolean,
  at: Date,
): Promise<void> {
  const claimed = await tx.$queryRaw<{ id: number }[]>`
    select id from casualty where id = ${casualtyId}::int and is_alone <> ${isAlone}::boolean
       for no key update skip locked`
  if (claimed.length === 0) throw new Failure('conflict')
  const [locked] = await tx.$queryRaw<{ enclosures: number[] | null }[]>`
    select lock_for_facts(array[${casualtyId}::int], '{}', ${at}::timestamptz) as enclosures`
  const settle = () =>
    tx.$queryRaw`
      select settle(${locked?.enclosures ?? []}::int[], ${at}::timestamptz, ${at}::timestamptz)::text`
  // Settled up to the instant as it was: settling goes back to where it stopped, and the nights until now were otherwise.
  await settle()
  await tx.casualty.update({ where: { id: casualtyId }, data: { isAlone } })
  await settle()
}
