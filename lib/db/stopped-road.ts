/**
 * Journeys that lead into or out of a place under a movement stop: one that is in force, or begins before they are there.
 * Promise: a stop stands against an animal as it does where a drive is planned (`stop_against`), and against leaving only
 * where nothing may move; the driver is who has the animals, else who takes them up first. Instants are UTC.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'

export type StoppedJourney = {
  readonly journeyId: number
  readonly stopId: number
  /** The centre under the stop, and whether the journey leads there; else it leads away from there. */
  readonly centre: string
  readonly leads: 'in' | 'out'
  readonly isWhole: boolean
  readonly reason: string
  readonly startsAt: Date
  readonly references: readonly string[]
  readonly species: string
  readonly isOnTheRoad: boolean
  /** Null: the finder drives. */
  readonly driver: string | null
  readonly phone: string | null
  readonly authority: string
  readonly authorityPhone: string
}

/** As rows of SQL, for the list of what is owed too. */
export const stoppedJourneys = (now: Date) => Prisma.sql`
  select j.id as "journeyId", m.id as "stopId", ce.name as centre,
         case when m.centre_id = g.to_centre_id then 'in' else 'out' end as leads,
         m.site_state = 'no-movement' as "isWhole", m.reason, m.starts_at as "startsAt",
         array_agg(cs.reference order by cs.id) as "references", string_agg(distinct sp.common_name, ' and ') as species,
         coalesce(l.state = 'on the road', false) as "isOnTheRoad", d.name as driver, d.phone,
         n.authority_name as authority, n.authority_phone as "authorityPhone"
    from journey j cross join network n
    cross join lateral (select case when j.turned_at is null then j.to_centre_id else j.from_centre_id end as to_centre_id,
                               case when j.turned_at is null then j.from_centre_id else j.to_centre_id end as from_centre_id) g
    join movement_stop m on m.centre_id in (g.to_centre_id, g.from_centre_id)
     and (m.ends_at is null or m.ends_at > ${now}::timestamptz)
     and m.starts_at <= greatest(${now}::timestamptz, (select max(x.due_at) from leg x
           where x.journey_id = j.id and x.state in ('planned', 'on the road')))
    join centre ce on ce.id = m.centre_id
    join journey_animal a on a.journey_id = j.id and a.state = 'open'
    join casualty cs on cs.id = a.casualty_id join species sp on sp.slug = cs.species_slug
    join species_group sg on sg.slug = sp.group_slug
    left join lateral (select * from leg x where x.journey_id = j.id and x.state in ('planned', 'on the road')
      order by x.state = 'on the road' desc, x.leg_no, x.id desc limit 1) l on true
    left join driver d on d.id = l.driver_id
   where j.ended_at is null and (m.covers_class is null or m.covers_class = sp.class)
     and (m.site_state = 'no-movement'
          or m.site_state = 'closed-to-high-risk' and m.centre_id = g.to_centre_id
             and (sg.is_high_risk_influenza or 'hpai-outside-first' = any (sp.handling_cautions)))
   group by j.id, m.id, ce.name, g.to_centre_id, l.state, d.name, d.phone, n.authority_name, n.authority_phone`

/** The journeys that are stopped, the earliest stop first; of one journey only, where it is named. */
export async function listStoppedJourneys(
  _grant: Grant<'move.read' | 'system.run'>,
  now: Date,
  journeyId?: number,
): Promise<StoppedJourney[]> {
  const only = journeyId === undefined ? Prisma.sql`true` : Prisma.sql`s."journeyId" = ${journeyId}::int`
  return db().$queryRaw<StoppedJourney[]>`
    select s.* from (${stoppedJourneys(now)}) s where ${only} order by s."startsAt", s."journeyId", s."stopId"`
}
