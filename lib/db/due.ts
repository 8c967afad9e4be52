/**
 * What is owed, read role by role: one statement each, in the shape of lib/domain/due.ts.
 * Promise: a carer's rows are of her own centres, a vet's of her own practices; what has a day and no hour stands at
 * the end of that day in the network's zone. Animals of one arrival on one road are one item that names each.
 */
import 'server-only'
import type { Role } from '#lib/authz/actor.ts'
import type { Grant } from '#lib/authz/demand.ts'
import { COUNT_HOURS_MAX, type DueItem, dueItem } from '#lib/domain/due.ts'
import { type StageEstimate, stageEstimate } from '#lib/domain/estimate.ts'
import { LICENCE_DAYS_AHEAD, LICENCE_LAST_DAYS } from '#lib/domain/licence.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { type Db, db } from './client.ts'
import { stoppedJourneys } from './stopped-road.ts'

type Reads = Grant<'due.read'>
type Places = readonly number[]

const HOLDS_HOURS_AHEAD = 24
const DEPARTURE_HOURS_AHEAD = 24
const CLOSURE_DAYS_AHEAD = 3
/** How long a rule stays reviewed; common practice, no source. */
const REVIEW_DAYS = 365
const NAMES_SHOWN = 3

const zone = Prisma.sql`(select time_zone from network limit 1)`
const endOf = (day: Prisma.Sql) =>
  Prisma.sql`((${day} + 1)::timestamp at time zone ${zone} - interval '1 second')`
const isThere = Prisma.sql`coalesce(p.is_active and exists (
  select from person_role r where r.person_id = p.id and r.role = 'coordinator'), false)`
const liveHold = Prisma.sql`select h.id, h.expected_at, h.expires_at, ce.name as centre
  from claim h join enclosure e on e.id = h.enclosure_id join centre ce on ce.id = e.centre_id
 where h.casualty_id = cs.id and h.kind = 'hold' and h.state = 'live' order by h.expected_at, h.id limit 1`

const calls = Prisma.sql`
  select c.id, c.opened_at as at, coalesce(c.owner_id, c.opened_by) as owner_id, jsonb_build_object('kind', 'call',
         'callId', c.id, 'animal', coalesce(c.facts ->> 'animalTyped', ''), 'where', coalesce(c.facts ->> 'whereTyped', ''),
         'isParked', c.state = 'parked') as about
    from call c where c.state <> 'closed'`

const callBacks = Prisma.sql`
  select b.id, b.due_at, b.owner_id, jsonb_build_object('kind', 'call-back', 'callId', c.id, 'what', b.what,
         'animal', coalesce(c.facts ->> 'animalTyped', ''), 'where', coalesce(c.facts ->> 'whereTyped', ''))
    from call_back b join call c on c.id = b.call_id where b.done_at is null`

/** Put and not answered; and those that lapsed with nobody asked after them. */
const asks = (now: Date) => Prisma.sql`
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

const onTheRoad = Prisma.sql`
  select min(cs.id), min(coalesce(h.expected_at, w.since)), null::int,
         jsonb_build_object('kind', 'on-the-road', 'references', jsonb_agg(cs.reference order by cs.id),
           'species', min(sp.common_name), 'by', min(d.name), 'phone', min(d.phone), 'since', min(w.since),
           'centre', h.centre, 'expectedAt', h.expected_at, 'expiresAt', h.expires_at)
    from whereabouts w join casualty cs on cs.id = w.casualty_id join species sp on sp.slug = cs.species_slug
    join keeping k on k.id = w.keeping_id left join driver d on d.id = k.driver_id
    left join lateral (${liveHold}) h on true
   where w.until is null and w.keeper in ('finder', 'driver')
   group by cs.arrival_id, k.driver_id, h.centre, h.expected_at, h.expires_at`

const holds = (now: Date) => Prisma.sql`
  select min(h.id), h.expires_at, null::int,
         jsonb_build_object('kind', 'hold', 'references', jsonb_agg(cs.reference order by cs.id),
           'species', min(sp.common_name), 'centre', ce.name, 'expectedAt', min(h.expected_at))
    from claim h join casualty cs on cs.id = h.casualty_id join species sp on sp.slug = cs.species_slug
    join whereabouts w on w.casualty_id = cs.id and w.until is null and w.keeper not in ('finder', 'driver')
    join enclosure e on e.id = h.enclosure_id join centre ce on ce.id = e.centre_id
   where h.kind = 'hold' and h.state = 'live'
     and h.expires_at <= ${now}::timestamptz + make_interval(hours => ${HOLDS_HOURS_AHEAD}::int)
   group by cs.arrival_id, ce.name, h.expires_at`

/** Drivers who are late, and those who can't while nobody else drives the leg. */
const legs = Prisma.sql`
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
const stopped = (now: Date) => Prisma.sql`
  select s."stopId", s."startsAt", null::int,
         jsonb_build_object('kind', 'stopped-drive', 'journeyId', s."journeyId", 'references', to_jsonb(s."references"),
           'species', s.species, 'centre', s.centre, 'leads', s.leads, 'isOnTheRoad', s."isOnTheRoad", 'by', s.driver,
           'phone', s.phone, 'authority', s.authority, 'authorityPhone', s."authorityPhone")
    from (${stoppedJourneys(now)}) s`

/** Moves that were agreed and that nobody drives yet, by the hour they are expected. */
const transfers = Prisma.sql`
  select t.id, t.expected_at, null::int,
         jsonb_build_object('kind', 'transfer', 'references', jsonb_build_array(cs.reference), 'species', sp.common_name,
           'from', f.name, 'to', c.name)
    from transfer t join casualty cs on cs.id = t.casualty_id join species sp on sp.slug = cs.species_slug
    join centre f on f.id = t.from_centre_id join centre c on c.id = t.to_centre_id
   where t.state = 'agreed'
     and not exists (select from journey_animal a where a.casualty_id = t.casualty_id and a.state = 'open')`

/** What was tapped on a round after somebody else had recorded otherwise, since it arrived and until somebody settled it. */
const twoVersions = (isHere: Prisma.Sql) => Prisma.sql`
  select x.id::text, n.entered_at as at, false as "isDay", jsonb_build_object('kind', 'two-versions',
         'references', jsonb_build_array(cs.reference), 'species', sp.common_name, 'centreId', ce.id, 'centre', ce.name) as about
    from round_entry x join entry n on n.id = x.entry_id join centre ce on ce.id = x.centre_id
    join casualty cs on cs.id = x.casualty_id join species sp on sp.slug = cs.species_slug
   where x.state = 'waits' and ${isHere}`

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

/** Clocks of licences that run out within so many days, for whoever has the animal, until somebody has seen to them. */
const licences = (now: Date, daysAhead: number, isHere: Prisma.Sql) => Prisma.sql`
  select cs.id || ':' || rk.key || ':' || t.days as id, ${endOf(Prisma.sql`r.runs_out`)} as at, true as "isDay",
         jsonb_build_object('kind', 'licence', 'references', jsonb_build_array(cs.reference), 'species', sp.common_name,
           'meaning', rk.meaning, 'on', r.runs_out::text, 'where', coalesce(ce.name, pr.name, '')) as about
    from whereabouts w join keeping kp on kp.id = w.keeping_id join casualty cs on cs.id = w.casualty_id
    join arrival ar on ar.id = cs.arrival_id join species sp on sp.slug = cs.species_slug
    join reference_key rk on rk.kind = 'licence' and rk.key = any (sp.licence_keys)
    join network n on licence_applies(rk.jurisdiction, n.jurisdiction)
    cross join lateral (select d.days, coalesce(rk.clock_holders[d.no], 'anyone') as holder
       from unnest(rk.clock_days) with ordinality d (days, no)) t
    cross join lateral (select (ar.at at time zone n.time_zone)::date + t.days as runs_out) r
    left join centre ce on ce.id = w.centre_id left join practice pr on pr.id = kp.practice_id
   where w.until is null and ${isHere}
     and (t.holder = 'anyone' or t.holder = case w.keeper when 'practice' then 'vet' else 'authorised person' end)
     and r.runs_out <= (${now}::timestamptz at time zone n.time_zone)::date + ${daysAhead}::int
     and not exists (select from licence_word x where x.casualty_id = cs.id and x.key = rk.key)`

/**
 * Young that may imprint and have none of their kind and age with them (`isLone` of lib/domain/companion.ts), each day
 * anew, until one is with them or somebody has passed the check that asks for it; where that check is due it stands.
 */
const loneYoung = (now: Date, centreIds: Places) => Prisma.sql`
  select cs.id::text, ${endOf(Prisma.sql`(${now}::timestamptz at time zone ${zone})::date`)}, true, jsonb_build_object(
         'kind', 'companion', 'references', jsonb_build_array(cs.reference), 'species', sp.common_name,
         'since', w.since, 'centre', ce.name)
    from whereabouts w join casualty cs on cs.id = w.casualty_id join species sp on sp.slug = cs.species_slug
    join centre ce on ce.id = w.centre_id
   where w.until is null and w.keeper = 'centre' and w.centre_id = ${atCentres(centreIds)}
     and cs.age = 'young' and sp.is_imprint_risk and not cs.is_alone
     and not exists (select from whereabouts o join casualty oc on oc.id = o.casualty_id
           where o.until is null and o.enclosure_id = w.enclosure_id and o.casualty_id <> cs.id
             and oc.age = 'young' and oc.company_slug = cs.company_slug)
     and not exists (select from check_due d where d.casualty_id = cs.id and d.check_slug = 'companion'
           and (d.passed and d.done_at >= w.since
                  and not exists (select from whereabouts b join casualty bc on bc.id = b.casualty_id
                    where b.enclosure_id = w.enclosure_id and b.casualty_id <> cs.id and b.until > d.done_at
                      and bc.age = 'young' and bc.company_slug = cs.company_slug)
                or d.done_at is null and d.called_off_at is null
                and d.due_on <= (${now}::timestamptz at time zone ${zone})::date))`

const atCentres = (ids: Places) => Prisma.sql`any (${[...ids]}::int[])`

/** Checks of today and before, counts that grew old, animals expected and those booked to leave who are still there. */
export async function listCentreDue(_grant: Reads, centreIds: Places, now: Date): Promise<DueItem[]> {
  return read(
    'carer',
    Prisma.sql`
    select d.id::text, ${endOf(Prisma.sql`d.due_on`)} as at, true as "isDay", jsonb_build_object('kind', 'check',
           'references', jsonb_build_array(cs.reference), 'species', sp.common_name, 'what', d.what,
           'centre', ce.name) as about
      from check_due d join casualty cs on cs.id = d.casualty_id join species sp on sp.slug = cs.species_slug
      join whereabouts w on w.casualty_id = cs.id and w.until is null join centre ce on ce.id = w.centre_id
     where d.done_at is null and d.called_off_at is null and w.centre_id = ${atCentres(centreIds)}
       and d.due_on <= (${now}::timestamptz at time zone ${zone})::date
    union all
    select l.* from (${licences(now, LICENCE_DAYS_AHEAD, Prisma.sql`w.centre_id = ${atCentres(centreIds)}`)}) l
    union all
    ${twoVersions(Prisma.sql`x.centre_id = ${atCentres(centreIds)}`)}
    union all
    select cs.id::text, ${endOf(Prisma.sql`(${now}::timestamptz at time zone ${zone})::date`)}, true, jsonb_build_object(
           'kind', 'overwinter', 'references', jsonb_build_array(cs.reference), 'species', sp.common_name,
           'grams', g.grams, 'wanted', ss.grams, 'centre', ce.name)
      from whereabouts w join casualty cs on cs.id = w.casualty_id join species sp on sp.slug = cs.species_slug
      join centre ce on ce.id = w.centre_id
      join species_season ss on ss.species_slug = sp.slug and ss.kind = 'hibernation' and ss.is_active
      join lateral (select x.grams from weight x where x.casualty_id = cs.id and not x.is_void
         and not exists (select from weight z where z.supersedes = x.id) order by x.at desc, x.id desc limit 1) g on true
     where w.until is null and w.centre_id = ${atCentres(centreIds)} and g.grams < ss.grams
       and case when ss.opens <= ss.closes then to_char(${now}::timestamptz at time zone ${zone}, 'MM-DD') between ss.opens and ss.closes
           else to_char(${now}::timestamptz at time zone ${zone}, 'MM-DD') not between ss.closes and ss.opens
             or to_char(${now}::timestamptz at time zone ${zone}, 'MM-DD') in (ss.closes, ss.opens) end
       and not exists (select from casualty_stage s where s.stage = 'overwintering'
             and s.casualty_plan_id = (select max(p.id) from casualty_plan p where p.casualty_id = cs.id))
    union all
    select l.* from (${loneYoung(now, centreIds)}) l
    union all
    select ce.id::text, coalesce(ce.counted_at + make_interval(hours => ${COUNT_HOURS_MAX}::int), ${now}::timestamptz), false,
           jsonb_build_object('kind', 'count', 'centreId', ce.id, 'centre', ce.name, 'countedAt', ce.counted_at)
      from centre ce
     where ce.id = ${atCentres(centreIds)} and ce.is_active
       and exists (select from enclosure e where e.centre_id = ce.id and e.is_active)
       and (ce.counted_at is null or ce.counted_at <= ${now}::timestamptz - make_interval(hours => ${COUNT_HOURS_MAX}::int))
    union all
    select min(h.id)::text, h.expected_at, false, jsonb_build_object('kind', 'expected',
           'references', jsonb_agg(cs.reference order by cs.id), 'species', min(sp.common_name), 'centre', ce.name)
      from claim h join casualty cs on cs.id = h.casualty_id join species sp on sp.slug = cs.species_slug
      join enclosure e on e.id = h.enclosure_id join centre ce on ce.id = e.centre_id
      left join whereabouts w on w.casualty_id = cs.id and w.until is null
     where h.kind = 'hold' and h.state = 'live' and e.centre_id = ${atCentres(centreIds)}
       and w.centre_id is distinct from e.centre_id
     group by cs.arrival_id, ce.name, h.expected_at
    union all
    select d.id::text, d.at, false, jsonb_build_object('kind', 'departure', 'references', jsonb_build_array(cs.reference),
           'species', sp.common_name, 'centre', ce.name)
      from departure d join casualty cs on cs.id = d.casualty_id join species sp on sp.slug = cs.species_slug
      join whereabouts w on w.casualty_id = cs.id and w.until is null join centre ce on ce.id = w.centre_id
     where d.state in ('booked', 'slipped') and w.centre_id = ${atCentres(centreIds)} and d.at > w.since
       and d.at <= ${now}::timestamptz + make_interval(hours => ${DEPARTURE_HOURS_AHEAD}::int)
       and not exists (select from departure z where z.casualty_id = d.casualty_id and z.id > d.id)`,
  )
}

export type StageRun = {
  readonly casualtyId: number
  readonly reference: string
  readonly species: string
  readonly centre: string
  readonly stageNo: number
  readonly began: Date
  readonly estimate: StageEstimate
}

/** Who is in a stage at these centres since when, and how long the plan says it takes; not those recorded ready. */
export async function listStageRuns(_grant: Reads, centreIds: Places): Promise<StageRun[]> {
  const rows = await db().$queryRaw<(Omit<StageRun, 'estimate'> & { readonly estimate: unknown })[]>`
    select cs.id as "casualtyId", cs.reference, sp.common_name as species, ce.name as centre,
           st.stage_no as "stageNo", coalesce(f.at, a.at) as began, st.estimate
      from whereabouts w join casualty cs on cs.id = w.casualty_id join species sp on sp.slug = cs.species_slug
      join centre ce on ce.id = w.centre_id join arrival a on a.id = cs.arrival_id
      left join lateral (select f.stage_no, f.at from stage_fact f
         where f.casualty_id = cs.id and f.kind = 'began' and not f.is_void
           and not exists (select from stage_fact z where z.supersedes = f.id)
         order by f.stage_no desc, f.id desc limit 1) f on true
      -- Asked animal by animal: as a plain join it would read every stage there ever was.
      join lateral (select s.stage_no, s.estimate from casualty_stage s
         where s.casualty_plan_id = (select max(p.id) from casualty_plan p where p.casualty_id = cs.id)
           and s.stage_no = coalesce(f.stage_no, 1) limit 1) st on true
     where w.until is null and w.keeper = 'centre' and w.centre_id = ${atCentres(centreIds)}
       and not exists (select from stage_fact r where r.casualty_id = cs.id and r.kind = 'ready' and not r.is_void
             and r.stage_no = st.stage_no and not exists (select from stage_fact z where z.supersedes = r.id))`
  return rows.flatMap(row => {
    const estimate = stageEstimate.safeParse(row.estimate).data
    return estimate === undefined ? [] : [{ ...row, estimate }]
  })
}

/** Asks that wait for an answer of these practices. */
export async function listPracticeDue(_grant: Reads, practiceIds: Places, now: Date): Promise<DueItem[]> {
  return read(
    'vet',
    Prisma.sql`
    select a.id::text, coalesce(a.lapses_at, a.put_at) as at, false as "isDay", jsonb_build_object('kind', 'vet-ask',
           'callId', a.call_id, 'reference', cs.reference, 'species', sp.common_name, 'putAt', a.put_at,
           'practice', pr.name, 'what', coalesce(r.what, '')) as about
      from ask a join practice pr on pr.id = a.practice_id left join referral r on r.id = a.referral_id
      left join casualty cs on cs.id = a.casualty_id left join species sp on sp.slug = cs.species_slug
     where a.state = 'put' and a.practice_id = ${atCentres(practiceIds)}
    union all
    select l.* from (${licences(now, LICENCE_DAYS_AHEAD, Prisma.sql`kp.practice_id = ${atCentres(practiceIds)}`)}) l`,
  )
}

/** Closures that end soon, and rules nobody reviewed for a year. */
export async function listManagerDue(_grant: Reads, now: Date): Promise<DueItem[]> {
  return read(
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

/** What setup still lacks so that placing works. */
export async function listSetupGaps(_grant: Reads, now: Date): Promise<DueItem[]> {
  const gap = (name: string, from: Prisma.Sql) => Prisma.sql`
    select ${name} as id, ${now}::timestamptz as at, jsonb_build_object('kind', 'gap', 'gap', ${name}::text,
           'count', count(*), 'names', to_jsonb((array_agg(x.name order by x.name))[:${NAMES_SHOWN}::int])) as about
      from (${from}) x having count(*) > 0`
  const none = (from: Prisma.Sql) => Prisma.sql`select ''::text as name where not exists (${from})`
  const centres = (without: Prisma.Sql) =>
    Prisma.sql`select c.name from centre c where c.is_active and not exists (${without})`
  return read(
    'administrator',
    Prisma.join(
      [
        gap(
          'no-coordinator',
          none(Prisma.sql`select from person_role r join person p on p.id = r.person_id and p.is_active
            where r.role = 'coordinator'`),
        ),
        gap('no-centre', none(Prisma.sql`select from centre where is_active`)),
        gap(
          'centre-without-enclosure',
          centres(Prisma.sql`select from enclosure e where e.centre_id = c.id and e.is_active`),
        ),
        gap(
          'centre-without-carer',
          centres(Prisma.sql`select from person_role r join person p on p.id = r.person_id and p.is_active
            where r.role = 'carer' and r.centre_id = c.id`),
        ),
        gap('centre-without-hours', centres(Prisma.sql`select from centre_hours h where h.centre_id = c.id`)),
        gap(
          'enclosure-without-stocking',
          Prisma.sql`select ce.name || ', ' || e.name as name from enclosure e join centre ce on ce.id = e.centre_id
            where e.is_active and ce.is_active and not exists (select from stocking s where s.enclosure_id = e.id)`,
        ),
        gap(
          'practice-without-animals',
          Prisma.sql`select pr.name from practice pr where pr.is_active
            and not exists (select from practice_sees s where s.practice_id = pr.id)`,
        ),
      ],
      ' union all ',
    ),
  )
}

async function read(role: Role, sql: Prisma.Sql): Promise<DueItem[]> {
  return (await db().$queryRaw<unknown[]>(sql)).map(row => dueItem(role, row))
}
