/**
 * What facts that came late or were wrong leave behind: who stands in whose place, and what an end that was taken back
 * had ended. Promise: read from the facts as they stand now, so a correction empties it. Instants are UTC.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'

export type InPlace = {
  readonly reference: string
  readonly species: string
  readonly centreId: number
  readonly since: Date
}

/** Who has a place in its enclosure and came before it: one of them may have left by then, unrecorded. */
export async function listFirstIn(_grant: Grant<'casualty.read'>, id: number): Promise<InPlace[]> {
  return db().$queryRaw<InPlace[]>`
    select c.reference, s.common_name as species, o.centre_id as "centreId", o.since
      from whereabouts w
      join whereabouts o on o.enclosure_id = w.enclosure_id and o.until is null and o.casualty_id <> w.casualty_id
      join claim x on x.keeping_id = o.keeping_id and x.kind = 'stay' and x.state = 'live' and x.ends_at is null
      join casualty c on c.id = o.casualty_id
      join species s on s.slug = c.species_slug
     where w.casualty_id = ${id}::int and w.until is null and o.since <= w.since
     order by o.since, c.id limit 6`
}

/** Who came into its enclosure after it and has no place there, since this animal has it: put there while it counted as gone. */
export async function listSinceIn(_grant: Grant<'casualty.read'>, id: number, now: Date): Promise<InPlace[]> {
  return db().$queryRaw<InPlace[]>`
    select c.reference, s.common_name as species, o.centre_id as "centreId", o.since
      from whereabouts w
      join claim x on x.keeping_id = w.keeping_id and x.kind = 'stay' and x.state = 'live' and x.ends_at is null
      join whereabouts o on o.enclosure_id = w.enclosure_id and o.until is null and o.casualty_id <> w.casualty_id
      join casualty c on c.id = o.casualty_id
      join species s on s.slug = c.species_slug
     where w.casualty_id = ${id}::int and w.until is null and o.since > w.since
       and exists (select from short h where h.casualty_id = o.casualty_id and h.keeping_id = o.keeping_id
             and h.because in ('full', 'company') and h.starts_at <= ${now}::timestamptz
             and (h.ends_at is null or h.ends_at > ${now}::timestamptz))
     order by o.since, c.id limit 6`
}

export type MetThen = InPlace & {
  /** The fact that put it there. */
  readonly keepingId: number
  readonly at: Date
}

/** Past stays that had no place because others were recorded in it: who, and from when on. */
export async function listMetThen(_grant: Grant<'casualty.read'>, id: number): Promise<MetThen[]> {
  return db().$queryRaw<MetThen[]>`
    select distinct on (w.since, c.id) w.keeping_id as "keepingId", w.since as at, c.reference, s.common_name as species,
           o.centre_id as "centreId", o.since
      from whereabouts w
      join short h on h.casualty_id = w.casualty_id and h.keeping_id = w.keeping_id and h.because in ('full', 'company')
      join claim x on x.enclosure_id = w.enclosure_id and x.kind = 'stay' and x.state = 'live'
       and x.starts_at < h.ends_at and (x.ends_at is null or x.ends_at > h.starts_at)
      join whereabouts o on o.keeping_id = x.keeping_id and o.casualty_id <> w.casualty_id and o.since <= w.since
      join casualty c on c.id = o.casualty_id
      join species s on s.slug = c.species_slug
     where w.casualty_id = ${id}::int and w.until is not null
     order by w.since, c.id limit 12`
}

export const LOST = ['hold', 'departure', 'referral', 'transfer', 'drive'] as const
export type Lost = {
  readonly kind: (typeof LOST)[number]
  /** The place, the centre or what was sought. */
  readonly what: string | null
  readonly at: Date | null
}

/**
 * What ended with an end that was taken back, and is not put back; nothing once anything newer is recorded about where
 * it is, or where none was taken back.
 */
export async function listLostWithEnd(_grant: Grant<'casualty.read'>, id: number): Promise<Lost[]> {
  return db().$queryRaw<Lost[]>`
    with last as (
      select k.first_id from keeping k
       where k.casualty_id = ${id}::int and k.is_void and k.keeper = 'nobody'
         and k.id = (select max(n.id) from keeping n where n.casualty_id = k.casualty_id)),
    ends as (
      select min(e.entered_at) as first_at, array_agg(e.entered_at) as ats
        from keeping k join entry e on e.id = k.entry_id
       where k.first_id = (select first_id from last) and not k.is_void)
    select 'hold' as kind, ce.name || ', ' || en.name as what, c.expected_at as at
      from claim c join ends on c.ended_at = any (ends.ats)
      join enclosure en on en.id = c.enclosure_id join centre ce on ce.id = en.centre_id
     where c.casualty_id = ${id}::int and c.kind = 'hold' and c.state = 'given-up'
       and not exists (select from claim n where n.casualty_id = c.casualty_id and n.enclosure_id = c.enclosure_id
                         and n.kind = 'hold' and n.state = 'live')
    union all
    (select 'departure', null, d.at from departure d, ends
      where d.casualty_id = ${id}::int and d.state = 'gone' and d.at > ends.first_at
        and not exists (select from departure n where n.casualty_id = d.casualty_id and n.id > d.id)
      order by d.id desc limit 1)
    union all
    select 'referral', r.what, null from referral r join ends on r.closed_at = any (ends.ats)
     where r.casualty_id = ${id}::int
    union all
    select 'transfer', ce.name, t.expected_at from transfer t join centre ce on ce.id = t.to_centre_id
      join ends on t.ended_at = any (ends.ats)
     where t.casualty_id = ${id}::int and t.state = 'cancelled'
    union all
    select 'drive', coalesce(ce.name, pr.name), null from journey_animal a join journey j on j.id = a.journey_id
      join ends on j.made_at <= ends.first_at
      left join centre ce on ce.id = j.to_centre_id left join practice pr on pr.id = j.to_practice_id
     where a.casualty_id = ${id}::int and a.state = 'ended'`
}
