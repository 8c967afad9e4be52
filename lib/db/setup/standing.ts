/**
 * What stands in enclosures at an instant, and how setup makes room for what it changes there.
 * Promise: a stay that is ended here is granted anew by the next settle, under what setup wrote meanwhile; what stood
 * until then is left as it was. Runs inside an entry, with the enclosures locked and settled.
 */
import 'server-only'
import type { Standing } from '#lib/domain/breaking.ts'
import { writeClosure } from '../closure.ts'
import type { EntryTx } from '../entry.ts'

type Scope = readonly number[] | 'everywhere'

/** Stays with a place and promises that have not run out. */
export async function listStanding({ tx }: EntryTx, scope: Scope, at: Date): Promise<Standing[]> {
  const ids = scope === 'everywhere' ? null : [...scope]
  return tx.$queryRaw<Standing[]>`
    select k.kind, k.casualty_id as "casualtyId", c.reference, k.enclosure_id as "enclosureId",
           e.name || ', ' || r.name || case when ${ids}::int[] is null then ', ' || s.name else '' end as enclosure
      from claim k
      join casualty c on c.id = k.casualty_id
      join enclosure e on e.id = k.enclosure_id
      join room r on r.id = e.room_id
      join centre s on s.id = e.centre_id
     where k.state = 'live' and (${ids}::int[] is null or k.enclosure_id = any (${ids}::int[]))
       and (k.kind = 'hold' and k.expires_at > ${at}::timestamptz
         or k.kind = 'stay' and k.starts_at <= ${at}::timestamptz and (k.ends_at is null or k.ends_at > ${at}::timestamptz))
     order by e.centre_id, r.walking_order, e.walking_order, e.id, k.kind desc, c.reference`
}

/** Everybody who is at a centre or promised to it, of some groups. */
export async function listOfGroups(
  { tx }: EntryTx,
  centreId: number,
  groups: readonly string[],
  at: Date,
): Promise<(Standing & { readonly claimId: number | null })[]> {
  return tx.$queryRaw`
    select 'stay' as kind, c.id as "casualtyId", c.reference, coalesce(e.id, 0) as "enclosureId",
           coalesce(e.name || ', ' || r.name, '') as enclosure, null::int as "claimId"
      from whereabouts w join casualty c on c.id = w.casualty_id join species s on s.slug = c.species_slug
      left join enclosure e on e.id = w.enclosure_id left join room r on r.id = e.room_id
     where w.centre_id = ${centreId}::int and w.until is null and s.group_slug = any (${[...groups]}::text[])
    union all
    select 'hold', c.id, c.reference, e.id, e.name || ', ' || r.name, k.id
      from claim k join casualty c on c.id = k.casualty_id join species s on s.slug = c.species_slug
      join enclosure e on e.id = k.enclosure_id join room r on r.id = e.room_id
     where k.kind = 'hold' and k.state = 'live' and k.expires_at > ${at}::timestamptz
       and e.centre_id = ${centreId}::int and s.group_slug = any (${[...groups]}::text[])
     order by 5, 3`
}

/** Ends the stays of enclosures for the next settle to grant anew. */
export async function closeOffStays(
  { tx }: EntryTx,
  enclosureIds: readonly number[],
  at: Date,
): Promise<void> {
  await tx.$queryRaw`select close_off_stays(${[...enclosureIds]}::int[], ${at}::timestamptz)::text`
}

/** Promises that no longer fit the stocking move within the enclosure, or are given up. */
export async function fitHolds({ tx }: EntryTx, enclosureIds: readonly number[], at: Date): Promise<void> {
  await tx.$queryRaw`select fit_holds(${[...enclosureIds]}::int[], ${at}::timestamptz)::text`
}

/** Gives up the promises that would meet the other side in a room that keeps predators and prey apart. */
export async function giveUpApart({ tx }: EntryTx, enclosureIds: readonly number[], at: Date): Promise<void> {
  await tx.$queryRaw`select give_up_apart(${[...enclosureIds]}::int[], ${at}::timestamptz)::text`
}

/** Gives up every promise of an enclosure. */
export async function giveUpHoldsIn({ tx }: EntryTx, enclosureId: number, at: Date): Promise<void> {
  await tx.$queryRaw`
    select give_up_holds(array(select id from claim where enclosure_id = ${enclosureId}::int and kind = 'hold'), ${at}::timestamptz)::text`
}

export async function giveUpHolds({ tx }: EntryTx, claimIds: readonly number[], at: Date): Promise<void> {
  await tx.$queryRaw`select give_up_holds(${[...claimIds]}::int[], ${at}::timestamptz)::text`
}

/** An enclosure that is switched off, or whose room is, is closed with its switch; one that is on again is not. */
export async function closeWithSwitch(
  entry: EntryTx,
  enclosureIds: readonly number[],
  reason: string,
  at: Date,
): Promise<void> {
  const rows = await entry.tx.$queryRaw<{ id: number; isOn: boolean; closureId: number | null }[]>`
    select e.id, e.is_active and r.is_active as "isOn",
           (select max(x.id) from closure x where x.enclosure_id = e.id and x.with_switch and x.lifted_at is null) as "closureId"
      from enclosure e join room r on r.id = e.room_id
     where e.id = any (${[...enclosureIds]}::int[]) order by e.id`
  for (const { id, isOn, closureId } of rows) {
    if (!isOn && closureId === null) {
      const made = await writeClosure(entry, { enclosureId: id, startsAt: at, reason }, at)
      await entry.tx.closure.update({ where: { id: made }, data: { withSwitch: true } })
    }
    if (isOn && closureId !== null) {
      await entry.tx.$queryRaw`select lift_closure(${closureId}::int, ${at}::timestamptz)::text`
    }
  }
}
