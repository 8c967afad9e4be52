/**
 * What is owed to animals in care: checks, clocks of licences, overwintering, company for the young, two versions of a
 * tap. Parts of statements, each with the columns id, instant, whether it is a day, about.
 * Promise: what has a day and no hour stands at the end of that day in the network's zone.
 */
import 'server-only'
import { Prisma } from '#prisma/generated/client.ts'
import { anyOf, endOf, zone } from './due-part.ts'

type Places = readonly number[]

/** Checks of today and before. */
export const checks = (now: Date, centreIds: Places) => Prisma.sql`
  select d.id::text, ${endOf(Prisma.sql`d.due_on`)} as at, true as "isDay", jsonb_build_object('kind', 'check',
         'references', jsonb_build_array(cs.reference), 'species', sp.common_name, 'what', d.what,
         'centre', ce.name) as about
    from check_due d join casualty cs on cs.id = d.casualty_id join species sp on sp.slug = cs.species_slug
    join whereabouts w on w.casualty_id = cs.id and w.until is null join centre ce on ce.id = w.centre_id
   where d.done_at is null and d.called_off_at is null and w.centre_id = ${anyOf(centreIds)}
     and d.due_on <= (${now}::timestamptz at time zone ${zone})::date`

/** What was tapped on a round after somebody else had recorded otherwise, since it arrived and until somebody settled it. */
export const twoVersions = (isHere: Prisma.Sql) => Prisma.sql`
  select x.id::text, n.entered_at as at, false as "isDay", jsonb_build_object('kind', 'two-versions',
         'references', jsonb_build_array(cs.reference), 'species', sp.common_name, 'centreId', ce.id, 'centre', ce.name) as about
    from round_entry x join entry n on n.id = x.entry_id join centre ce on ce.id = x.centre_id
    join casualty cs on cs.id = x.casualty_id join species sp on sp.slug = cs.species_slug
   where x.state = 'waits' and ${isHere}`

/** Whoever weighs too little to hibernate, in its season, until its plan lets it overwinter. */
export const overwintering = (now: Date, centreIds: Places) => Prisma.sql`
  select cs.id::text, ${endOf(Prisma.sql`(${now}::timestamptz at time zone ${zone})::date`)}, true, jsonb_build_object(
         'kind', 'overwinter', 'references', jsonb_build_array(cs.reference), 'species', sp.common_name,
         'grams', g.grams, 'wanted', ss.grams, 'centre', ce.name)
    from whereabouts w join casualty cs on cs.id = w.casualty_id join species sp on sp.slug = cs.species_slug
    join centre ce on ce.id = w.centre_id
    join species_season ss on ss.species_slug = sp.slug and ss.kind = 'hibernation' and ss.is_active
    join lateral (select x.grams from weight x where x.casualty_id = cs.id and not x.is_void
       and not exists (select from weight z where z.supersedes = x.id) order by x.at desc, x.id desc limit 1) g on true
   where w.until is null and w.centre_id = ${anyOf(centreIds)} and g.grams < ss.grams
     and case when ss.opens <= ss.closes then to_char(${now}::timestamptz at time zone ${zone}, 'MM-DD') between ss.opens and ss.closes
         else to_char(${now}::timestamptz at time zone ${zone}, 'MM-DD') not between ss.closes and ss.opens
           or to_char(${now}::timestamptz at time zone ${zone}, 'MM-DD') in (ss.closes, ss.opens) end
     and not exists (select from casualty_stage s where s.stage = 'overwintering'
           and s.casualty_plan_id = (select max(p.id) from casualty_plan p where p.casualty_id = cs.id))`

/** Clocks of licences that run out within so many days, for whoever has the animal, until somebody has seen to them. */
export const licences = (now: Date, daysAhead: number, isHere: Prisma.Sql) => Prisma.sql`
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
export const loneYoung = (now: Date, centreIds: Places) => Prisma.sql`
  select cs.id::text, ${endOf(Prisma.sql`(${now}::timestamptz at time zone ${zone})::date`)}, true, jsonb_build_object(
         'kind', 'companion', 'references', jsonb_build_array(cs.reference), 'species', sp.common_name,
         'since', w.since, 'centre', ce.name)
    from whereabouts w join casualty cs on cs.id = w.casualty_id join species sp on sp.slug = cs.species_slug
    join centre ce on ce.id = w.centre_id
   where w.until is null and w.keeper = 'centre' and w.centre_id = ${anyOf(centreIds)}
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
