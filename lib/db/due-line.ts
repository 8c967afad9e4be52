/**
 * What the line itself owes: calls, call-backs, asks without an answer, kept places that run out. Parts of statements, each
 * with the columns id, instant, owner, about.
 */
import 'server-only'
import { Prisma } from '#prisma/generated/client.ts'

const HOLDS_HOURS_AHEAD = 24

export const calls = Prisma.sql`
  select c.id, c.opened_at as at, coalesce(c.owner_id, c.opened_by) as owner_id, jsonb_build_object('kind', 'call',
         'callId', c.id, 'animal', coalesce(c.facts ->> 'animalTyped', ''), 'where', coalesce(c.facts ->> 'whereTyped', ''),
         'isParked', c.state = 'parked') as about
    from call c where c.state <> 'closed'`

export const callBacks = Prisma.sql`
  select b.id, b.due_at, b.owner_id, jsonb_build_object('kind', 'call-back', 'callId', c.id, 'what', b.what,
         'animal', coalesce(c.facts ->> 'animalTyped', ''), 'where', coalesce(c.facts ->> 'whereTyped', ''))
    from call_back b join call c on c.id = b.call_id where b.done_at is null`

/** Put and not answered; and those that lapsed with nobody asked after them. */
export const asks = (now: Date) => Prisma.sql`
  select a.id, coalesce(a.lapses_at, a.put_at, ${now}::timestamptz), null::int,
         jsonb_build_object('kind', 'ask', 'callId', a.call_id, 'reference', cs.reference, 'species', sp.common_name,
           'putAt', a.put_at, 'to', coalesce(ce.name, pr.name), 'phone', coalesce(ce.phone, pr.phone),
           'isSilent', a.state = 'unanswered')
    from ask a left join centre ce on ce.id = a.centre_id left join practice pr on pr.id = a.practice_id
    left join casualty cs on cs.id = a.casualty_id left join species sp on sp.slug = cs.species_slug
   where a.state in ('written', 'put')
      or a.state = 'unanswered'
         and not exists (select from ask z where z.id > a.id and (z.referral_id = a.referral_id
               or a.referral_id is null and z.casualty_id = a.casualty_id))
         and exists (select from whereabouts w where w.casualty_id = a.casualty_id and w.until is null
               and w.keeper in ('finder', 'driver'))`

export const holds = (now: Date) => Prisma.sql`
  select min(h.id), h.expires_at, null::int,
         jsonb_build_object('kind', 'hold', 'references', jsonb_agg(cs.reference order by cs.id),
           'species', min(sp.common_name), 'centre', ce.name, 'expectedAt', min(h.expected_at))
    from claim h join casualty cs on cs.id = h.casualty_id join species sp on sp.slug = cs.species_slug
    join whereabouts w on w.casualty_id = cs.id and w.until is null and w.keeper not in ('finder', 'driver')
    join enclosure e on e.id = h.enclosure_id join centre ce on ce.id = e.centre_id
   where h.kind = 'hold' and h.state = 'live'
     and h.expires_at <= ${now}::timestamptz + make_interval(hours => ${HOLDS_HOURS_AHEAD}::int)
   group by cs.arrival_id, ce.name, h.expires_at`
