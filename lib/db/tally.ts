/**
 * How the cases of the network stand at an instant: in care, or ended and how; animals and arrivals apart.
 * Promise: an animal counts from the first fact that it is with the network, and stands in exactly one line, so that
 * the lines of a species, cause and centre add up to what was admitted. An arrival stands in care while one of its
 * animals does, else with the one that ended last. The centre is the first that had it.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { OUTCOMES } from '#lib/domain/outcome.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'

const tallyLine = z.object({
  species: z.string(),
  cause: z.string().nullable(),
  centreId: z.int().nullable(),
  state: z.enum(['in care', ...OUTCOMES]),
  animals: z.int(),
  arrivals: z.int(),
})
export type TallyLine = z.infer<typeof tallyLine>

/** The lines at an instant, of what was admitted from another one on. */
export async function listTally(grant: Grant<'casualty.read'>, from: Date, at: Date): Promise<TallyLine[]> {
  const { scope } = grant
  const isOwn =
    scope.kind === 'everywhere'
      ? Prisma.sql`true`
      : Prisma.sql`centre_id = any (${[...scope.centreIds]}::int[])`
  const rows = await db().$queryRaw<unknown[]>`
    with animal as (
      select c.id, c.arrival_id, c.species_slug as species, n.centre_id, w.since,
             (select f.condition_slug from finding f where f.casualty_id = c.id and not f.is_void
                 and not exists (select from finding z where z.supersedes = f.id) order by f.id limit 1) as cause,
             case when w.keeper = 'nobody' then coalesce(k.outcome, 'unknown') else 'in care' end as state
        from casualty c
        join whereabouts w on w.casualty_id = c.id and w.since <= ${at}::timestamptz
         and (w.until is null or w.until > ${at}::timestamptz)
        join keeping k on k.id = w.keeping_id
        join lateral (select min(b.since) as since from whereabouts b
           where b.casualty_id = c.id and b.keeper <> 'finder' and b.since <= ${at}::timestamptz) a on a.since >= ${from}::timestamptz
        left join lateral (select b.centre_id from whereabouts b
           where b.casualty_id = c.id and b.keeper = 'centre' and b.since <= ${at}::timestamptz
           order by b.since, b.keeping_id limit 1) n on true),
    arrival_line as (
      select distinct on (arrival_id) arrival_id, state,
             first_value(species) over first as species, first_value(cause) over first as cause,
             first_value(centre_id) over first as centre_id
        from animal window first as (partition by arrival_id order by id)
       order by arrival_id, state = 'in care' desc, since desc, id desc),
    line as (
      select species, cause, centre_id, state, 1 as animals, 0 as arrivals from animal
      union all select species, cause, centre_id, state, 0, 1 from arrival_line)
    select species, cause, centre_id as "centreId", state, sum(animals)::int as animals, sum(arrivals)::int as arrivals
      from line where ${isOwn} group by 1, 2, 3, 4 order by 1, 2, 3, 4`
  return rows.map(row => tallyLine.parse(row))
}
