/**
 * Every arrival as it was recorded: when it came to its first centre, of which species group, how many at once; and those
 * that were asked for and sent elsewhere.
 * Promise: one row an arrival, at the hour at which the first of its animals came; what was refused counts unless it came
 * after all. Nothing names a person.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'

/** `centreId` null: sent elsewhere. The group is that of the arrival's first animal as it is known today. */
export type ArrivalRecordRow = {
  readonly at: Date
  readonly group: string
  readonly centreId: number | null
  readonly animals: number
  /** The plans of its first animal, of the newest version known; null where it has none. */
  readonly planIds: readonly string[] | null
  /** How many of them are young; null of those sent elsewhere. */
  readonly young: number | null
}

/** Those before `before`, in order, as they were known when the network stood at `revision`. */
export async function listArrivalRecords(
  _grant: Grant<'system.run'>,
  before: Date,
  revision: number,
): Promise<ArrivalRecordRow[]> {
  return db().$queryRaw<ArrivalRecordRow[]>`
    with came as (
      select distinct on (w.casualty_id) w.casualty_id, w.centre_id, w.since
        from keeping_as_known_on(${revision}::int) w where w.keeper = 'centre' order by w.casualty_id, w.since),
    arrived as (
      select min(f.since) as at, (array_agg(s.group_slug order by f.since, c.id))[1] as "group",
             (array_agg(f.centre_id order by f.since, c.id))[1] as "centreId", count(*)::int as animals,
             (count(*) filter (where c.age = 'young'))::int as young,
             (array_agg(c.id order by f.since, c.id))[1] as first_id
        from came f join casualty c on c.id = f.casualty_id join species s on s.slug = c.species_slug
       group by c.arrival_id),
    plan as (
      select distinct on (p.casualty_id) p.casualty_id, p.plan_ids
        from casualty_plan p join entry e on e.id = p.entry_id
       where e.revision <= ${revision}::int order by p.casualty_id, p.version_no desc)
    select a.at, a."group", a."centreId", a.animals, p.plan_ids as "planIds", a.young
      from arrived a left join plan p on p.casualty_id = a.first_id where a.at < ${before}::timestamptz
    union all
    select u.at, u.group_slug, null, u.animals, null, null from unmet_demand u
     where u.at < ${before}::timestamptz and not exists (select from arrival a where a.call_id = u.call_id)
     order by at, "group"`
}
