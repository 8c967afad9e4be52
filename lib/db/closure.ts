/**
 * What closes enclosures and sites, and what opens them again; counting a centre.
 * Promise: a closure is saved even with occupants: they are then without a proper place, and that is the list of
 * moves. A stop breaks the holds that it covers. Writes run inside an entry (entry.ts).
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

export type Closing = {
  readonly enclosureId: number
  readonly startsAt: Date
  readonly endsAt?: Date | undefined
  readonly reason: string
}

/** Closes an enclosure and returns the closure's number. */
export async function writeClosure({ tx, entryId }: EntryTx, closing: Closing, at: Date): Promise<number> {
  const [made] = await tx.$queryRaw<{ id: number }[]>`
    select close_enclosure(${entryId}::int, ${closing.enclosureId}::int, ${closing.startsAt}::timestamptz,
      ${closing.endsAt ?? null}::timestamptz, ${closing.reason}::text, ${at}::timestamptz) as id`
  return made?.id ?? 0
}

/** Ends a closure now; whoever is in has a place again. */
export async function endClosure({ tx }: EntryTx, closureId: number, at: Date): Promise<void> {
  await tx.$queryRaw`select lift_closure(${closureId}::int, ${at}::timestamptz)::text`
}

/** The enclosure of a closure. */
export async function getEnclosureOfClosure(_grant: Grant<'system.run'>, closureId: number): Promise<number> {
  const found = await db().closure.findUnique({ where: { id: closureId }, select: { enclosureId: true } })
  if (found === null) throw new Failure('not-found')
  return found.enclosureId
}

/** Ends whatever was still drying. */
export async function writeCleaning({ tx, entryId }: EntryTx, enclosureId: number, at: Date): Promise<void> {
  await tx.$queryRaw`select cleaned_now(${entryId}::int, ${enclosureId}::int, ${at}::timestamptz)::text`
}

export type SiteState = {
  readonly centreId: number
  readonly state: 'open' | 'closed-to-high-risk' | 'isolation-full' | 'no-movement'
  readonly coversClass: 'bird' | 'mammal' | null
  readonly endsAt?: Date | undefined
  readonly reason: string
}

/** Sets the state of a site; returns how many holds the stop broke. */
export async function writeSiteState({ tx }: EntryTx, site: SiteState, at: Date): Promise<number> {
  const [done] = await tx.$queryRaw<{ broken: number }[]>`
    select set_site_state(${site.centreId}::int, ${site.state}::text, ${site.coversClass}::text,
      ${site.endsAt ?? null}::timestamptz, ${site.reason}::text, ${at}::timestamptz) as broken`
  return done?.broken ?? 0
}

/** Somebody went round and found a centre as shown. Of two counts the later stands. Returns the one before. */
export async function writeCounted({ tx }: EntryTx, centreId: number, at: Date): Promise<Date | null> {
  const [centre] = await tx.$queryRaw<{ countedAt: Date | null }[]>`
    select counted_at as "countedAt" from centre where id = ${centreId}::int for no key update`
  if (centre === undefined) throw new Failure('not-found')
  if (centre.countedAt === null || centre.countedAt < at) {
    await tx.centre.update({ where: { id: centreId }, data: { countedAt: at } })
  }
  return centre.countedAt
}

/** A count was taken back: what stood before stands again, unless somebody counted since. */
export async function writeUncounted(
  { tx }: EntryTx,
  centreId: number,
  count: { readonly at: Date; readonly before: Date | null },
): Promise<void> {
  await tx.centre.updateMany({
    where: { id: centreId, countedAt: count.at },
    data: { countedAt: count.before },
  })
}

/** Brings enclosures in line after their stocking, cleaning time or room was changed in setup. */
export async function settleEnclosures(
  { tx }: EntryTx,
  enclosureIds: readonly number[],
  at: Date,
): Promise<void> {
  const ids = [...enclosureIds]
  await tx.$queryRaw`select lock_enclosures(${ids}::int[])::text`
  await tx.$queryRaw`select settle(${ids}::int[], ${at}::timestamptz, ${at}::timestamptz)::text`
}
