/**
 * What is owed on the road: animals on their way, legs that are late, drives against a movement stop, moves that nobody
 * drives. Parts of statements, each with the columns id, instant, owner, about.
 * Promise: animals of one arrival on one road are one item that names each.
 */
import 'server-only'
import { Prisma } from '#prisma/generated/client.ts'
import { stoppedJourneys } from './stopped-road.ts'

const liveHold = Prisma.sql`select h.id, h.expected_at, h.expires_at, ce.name as centre
  from claim h join enclosure e on e.id = h.enclosure_id join centre ce on ce.id = e.centre_id
 where h.casualty_id = cs.id and h.kind = 'hold' and h.state = 'live' order by h.expected_at, h.id limit 1`

export const onTheRoad = Prisma.sql`
  select min(cs.id), min(coalesce(h.expected_at, w.since)), null::int,
         jsonb_build_object('kind', 'on-the-road', 'references', jsonb_agg(cs.reference order by cs.id),
           'species', min(sp.common_name), 'by', min(d.name), 'phone', min(d.phone), 'since', min(w.since),
           'centre', h.centre, 'expectedAt', h.expected_at, 'expiresAt', h.expires_at)
    from whereabouts w join casualty cs on cs.id = w.casualty_id join species sp on sp.slug = cs.species_slug
    join keeping k on k.id = w.keeping_id left join driver d on d.id = k.driver_id
    left join lateral (${liveHold}) h on true
   where w.until is null and w.keeper in ('finder', 'driver')
   group by cs.arrival_id, k.driver_id, h.centre, h.expected_at, h.expires_at`

/** Drivers who are late, and those who can't while nobody else drives the leg. */
export const legs = Prisma.sql`
  select l.id, coalesce(l.late_at, l.ended_at), null::int,
         jsonb_build_object('kind', 'leg', 'journeyId', j.id,
           'references', (select jsonb_agg(cs.reference order by cs.id) from journey_animal a join casualty cs on cs.id = a.casualty_id
                           where a.journey_id = j.id and a.state = 'open'),
           'species', (select string_agg(distinct sp.common_name, ' and ') from journey_animal a
                         join casualty cs on cs.id = a.casualty_id join species sp on sp.slug = cs.species_slug
                        where a.journey_id = j.id and a.state = 'open'),
           'trouble', case when l.state = 'cant' then 'cant' else 'late' end, 'by', d.name, 'phone', d.phone,
           'from', l.from_words, 'to', l.to_words, 'reason', l.reason)
    from leg l join journey j on j.id = l.journey_id left join driver d on d.id = l.driver_id
   where j.ended_at is null
     and (l.state in ('planned', 'on the road') and l.late_at is not null
          or l.state = 'cant' and not exists (select from leg o where o.journey_id = j.id and o.leg_no = l.leg_no
                                               and o.state in ('planned', 'on the road', 'delivered')))`

/** Drives that a movement stop stands against, from the hour at which it does. */
export const stopped = (now: Date) => Prisma.sql`
  select s."stopId", s."startsAt", null::int,
         jsonb_build_object('kind', 'stopped-drive', 'journeyId', s."journeyId", 'references', to_jsonb(s."references"),
           'species', s.species, 'centre', s.centre, 'leads', s.leads, 'isOnTheRoad', s."isOnTheRoad", 'by', s.driver,
           'phone', s.phone, 'authority', s.authority, 'authorityPhone', s."authorityPhone")
    from (${stoppedJourneys(now)}) s`

/** Moves that were agreed and that nobody drives yet, by the hour they are expected. */
export const transfers = Prisma.sql`
  select t.id, t.expected_at, null::int,
         jsonb_build_object('kind', 'transfer', 'references', jsonb_build_array(cs.reference), 'species', sp.common_name,
           'from', f.name, 'to', c.name)
    from transfer t join casualty cs on cs.id = t.casualty_id join species sp on sp.slug = cs.species_slug
    join centre f on f.id = t.from_centre_id join centre c on c.id = t.to_centre_id
   where t.state = 'agreed'
     and not exists (select from journey_animal a where a.casualty_id = t.casualty_id and a.state = 'open')`
