/**
 * What a centre's housing of one type held on past nights, and what was shut then.
 * Promise: counted from where animals were recorded to be, corrections included; two animals in one enclosure are one
 * enclosure, one that was still being cleaned counts as in use. Takes only nights of centres the grant reaches.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { HousingType } from '#lib/domain/housing.ts'
import { db } from './client.ts'

export type HousingOfCentre = { readonly centreId: number; readonly housing: HousingType }

/** A closure as it was or is meant to be; `endsAt` is when it ended in truth, where it was ended early. */
export type ShutSpan = {
  readonly enclosureId: number
  readonly enclosure: string
  readonly startsAt: Date
  readonly endsAt: Date | null
  readonly reason: string
}

/** How many enclosures were in use at each instant, the earliest instant first. */
export async function countInUse(
  grant: Grant<'forecast.read'>,
  { centreId, housing }: HousingOfCentre,
  instants: readonly Date[],
): Promise<number[]> {
  const at = instants.map(instant => instant.toISOString()).sort()
  const [first, last] = [at[0], at.at(-1)]
  const rows = await db().$queryRaw<{ count: number }[]>`
    with held as materialized (
      select w.enclosure_id, w.since as from_at, w.until as until_at
        from whereabouts w join enclosure e on e.id = w.enclosure_id
       where e.centre_id = ${centreId}::int and e.housing_type = ${housing} and e.centre_id = any (${reached(grant, centreId)}::int[])
         and w.since <= ${last}::timestamptz and (w.until is null or w.until > ${first}::timestamptz)
      union all
      select k.enclosure_id, k.starts_at, k.ends_at
        from claim k join enclosure e on e.id = k.enclosure_id
       where k.kind = 'drying' and k.state = 'live' and e.centre_id = ${centreId}::int
         and e.housing_type = ${housing} and e.centre_id = any (${reached(grant, centreId)}::int[])
         and k.starts_at <= ${last}::timestamptz and (k.ends_at is null or k.ends_at > ${first}::timestamptz))
    select (select count(distinct h.enclosure_id)::int from held h
             where h.from_at <= n.at and (h.until_at is null or h.until_at > n.at)) as count
      from unnest(${at}::timestamptz[]) with ordinality n (at, no)
     order by n.no`
  return rows.map(({ count }) => count)
}

/** Closures of these enclosures that had not ended by an instant, the earliest first. */
export async function listShut(
  grant: Grant<'forecast.read'>,
  { centreId, housing }: HousingOfCentre,
  since: Date,
): Promise<ShutSpan[]> {
  return db().$queryRaw<ShutSpan[]>`
    select x.enclosure_id as "enclosureId", e.name as enclosure, x.starts_at as "startsAt", x.ends_at as "endsAt", x.reason
      from closure_effect x join enclosure e on e.id = x.enclosure_id
     where e.centre_id = ${centreId}::int and e.housing_type = ${housing} and e.is_active
       and e.centre_id = any (${reached(grant, centreId)}::int[])
       and (x.ends_at is null or x.ends_at > ${since}::timestamptz)
     order by x.starts_at, x.id`
}

/** The centre itself where the grant reaches it, else none. */
function reached({ scope }: Grant<'forecast.read'>, centreId: number): number[] {
  return scope.kind === 'everywhere' || scope.centreIds.includes(centreId) ? [centreId] : []
}
