/**
 * What is owed, read role by role, in the shape of lib/domain/due.ts; the parts stand by what is owed beside this file.
 * Promise: a carer's rows are of her own centres, a vet's of her own practices.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { COUNT_HOURS_MAX, type DueItem, dueItem } from '#lib/domain/due.ts'
import { LICENCE_DAYS_AHEAD, LICENCE_LAST_DAYS } from '#lib/domain/licence.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { type Db, db } from './client.ts'
import { checks, licences, loneYoung, overwintering, twoVersions } from './due-animal.ts'
import { asks, callBacks, calls, holds } from './due-line.ts'
import { anyOf, endOf, readOwed, zone } from './due-part.ts'
import { legs, onTheRoad, stopped, transfers } from './due-road.ts'

type Reads = Grant<'due.read'>
type Places = readonly number[]

const DEPARTURE_HOURS_AHEAD = 24
const CLOSURE_DAYS_AHEAD = 3
/** How long a rule stays reviewed; common practice, no source. */
const REVIEW_DAYS = 365

const isThere = Prisma.sql`coalesce(p.is_active and exists (
  select from person_role r where r.person_id = p.id and r.role = 'coordinator'), false)`

/** Everything the line and its people owe: calls, call-backs, asks, animals on the road, holds that run out. */
export async function listDeskDue(
  _grant: Grant<'due.read' | 'line.read' | 'line.hold'>,
  now: Date,
  on: Db = db(),
): Promise<DueItem[]> {
  const rows = await on.$queryRaw<unknown[]>`
    select o.id, o.at, o.owner_id as "ownerId", p.name as owner, ${isThere} as "isOwnerThere", o.about
      from (${calls} union all ${callBacks} union all ${asks(now)} union all ${onTheRoad} union all ${legs} union all ${transfers} union all ${stopped(now)} union all ${holds(now)}) o
      left join person p on p.id = o.owner_id`
  const clocks = await on.$queryRaw<unknown[]>`
    ${licences(now, LICENCE_LAST_DAYS, Prisma.sql`w.keeper in ('centre', 'practice')`)}`
  const versions = await on.$queryRaw<unknown[]>(twoVersions(Prisma.sql`true`))
  return [...rows, ...clocks, ...versions].map(row => dueItem('coordinator', row))
}

/** Checks of today and before, counts that grew old, animals expected and those booked to leave who are still there. */
export async function listCentreDue(_grant: Reads, centreIds: Places, now: Date): Promise<DueItem[]> {
  return readOwed(
    'carer',
    Prisma.sql`
    select c.* from (${checks(now, centreIds)}) c
    union all
    select l.* from (${licences(now, LICENCE_DAYS_AHEAD, Prisma.sql`w.centre_id = ${anyOf(centreIds)}`)}) l
    union all
    ${twoVersions(Prisma.sql`x.centre_id = ${anyOf(centreIds)}`)}
    union all
    select o.* from (${overwintering(now, centreIds)}) o
    union all
    select l.* from (${loneYoung(now, centreIds)}) l
    union all
    select ce.id::text, coalesce(ce.counted_at + make_interval(hours => ${COUNT_HOURS_MAX}::int), ${now}::timestamptz), false,
           jsonb_build_object('kind', 'count', 'centreId', ce.id, 'centre', ce.name, 'countedAt', ce.counted_at)
      from centre ce
     where ce.id = ${anyOf(centreIds)} and ce.is_active
       and exists (select from enclosure e where e.centre_id = ce.id and e.is_active)
       and (ce.counted_at is null or ce.counted_at <= ${now}::timestamptz - make_interval(hours => ${COUNT_HOURS_MAX}::int))
    union all
    select min(h.id)::text, h.expected_at, false, jsonb_build_object('kind', 'expected',
           'references', jsonb_agg(cs.reference order by cs.id), 'species', min(sp.common_name), 'centre', ce.name)
      from claim h join casualty cs on cs.id = h.casualty_id join species sp on sp.slug = cs.species_slug
      join enclosure e on e.id = h.enclosure_id join centre ce on ce.id = e.centre_id
      left join whereabouts w on w.casualty_id = cs.id and w.until is null
     where h.kind = 'hold' and h.state = 'live' and e.centre_id = ${anyOf(centreIds)}
       and w.centre_id is distinct from e.centre_id
     group by cs.arrival_id, ce.name, h.expected_at
    union all
    select d.id::text, d.at, false, jsonb_build_object('kind', 'departure', 'references', jsonb_build_array(cs.reference),
           'species', sp.common_name, 'centre', ce.name)
      from departure d join casualty cs on cs.id = d.casualty_id join species sp on sp.slug = cs.species_slug
      join whereabouts w on w.casualty_id = cs.id and w.until is null join centre ce on ce.id = w.centre_id
     where d.state in ('booked', 'slipped') and w.centre_id = ${anyOf(centreIds)} and d.at > w.since
       and d.at <= ${now}::timestamptz + make_interval(hours => ${DEPARTURE_HOURS_AHEAD}::int)
       and not exists (select from departure z where z.casualty_id = d.casualty_id and z.id > d.id)`,
  )
}

/** Asks that wait for an answer of these practices. */
export async function listPracticeDue(_grant: Reads, practiceIds: Places, now: Date): Promise<DueItem[]> {
  return readOwed(
    'vet',
    Prisma.sql`
    select a.id::text, coalesce(a.lapses_at, a.put_at) as at, false as "isDay", jsonb_build_object('kind', 'vet-ask',
           'callId', a.call_id, 'reference', cs.reference, 'species', sp.common_name, 'putAt', a.put_at,
           'practice', pr.name, 'what', coalesce(r.what, '')) as about
      from ask a join practice pr on pr.id = a.practice_id left join referral r on r.id = a.referral_id
      left join casualty cs on cs.id = a.casualty_id left join species sp on sp.slug = cs.species_slug
     where a.state = 'put' and a.practice_id = ${anyOf(practiceIds)}
    union all
    select l.* from (${licences(now, LICENCE_DAYS_AHEAD, Prisma.sql`kp.practice_id = ${anyOf(practiceIds)}`)}) l`,
  )
}

/** Closures that end soon, and rules nobody reviewed for a year. */
export async function listManagerDue(_grant: Reads, now: Date): Promise<DueItem[]> {
  return readOwed(
    'manager',
    Prisma.sql`
    select c.id, c.ends_at as at, false as "isDay", jsonb_build_object('kind', 'closure', 'closureId', c.id,
           'enclosure', e.name, 'centre', ce.name, 'reason', c.reason) as about
      from closure c join enclosure e on e.id = c.enclosure_id join centre ce on ce.id = e.centre_id
     where c.lifted_at is null and c.ends_at > ${now}::timestamptz and c.starts_at <= ${now}::timestamptz
       and c.ends_at <= ${now}::timestamptz + make_interval(days => ${CLOSURE_DAYS_AHEAD}::int)
    union all
    select 1, ${endOf(Prisma.sql`(min(k.reviewed_on) + ${REVIEW_DAYS}::int)`)}, true,
           jsonb_build_object('kind', 'review', 'rules', count(*), 'reviewedOn', min(k.reviewed_on))
      from reference_key k
     where k.reviewed_on + ${REVIEW_DAYS}::int <= (${now}::timestamptz at time zone ${zone})::date
    having count(*) > 0`,
  )
}
