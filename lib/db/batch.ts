/**
 * Animals that are counted together. Runs inside an entry, which locks the batch: of two who write at once, each takes
 * another animal, and nobody regroups them meanwhile.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Beside } from '#lib/domain/group.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

type Tx = EntryTx['tx']

const COUNTED_WITH = Prisma.sql`(m.id = c.id or m.batch_id = c.batch_id) and w.keeper <> 'nobody'`
const AT_ITS_CENTRE = Prisma.sql`w.keeper = 'centre' and h.keeper = 'centre' and w.centre_id = h.centre_id`

/** Those who are something to an animal, by their numbers. */
const besideSql = (casualtyId: number, who: Prisma.Sql) => Prisma.sql`
  select m.id, m.reference, m.arrival_id as "arrivalId", m.batch_id as "batchId", m.member_no as "memberNo",
         m.told_by as "toldBy", m.species_slug as species, m.company_slug as company, m.is_alone as "isAlone",
         m.is_disease_suspect as "isSuspect", w.centre_id as "centreId", w.enclosure_id as "enclosureId",
         coalesce(e.housing_type = 'isolation', false) as "isIsolation", l.place_no as "placeNo",
         (w.keeper, w.centre_id, w.enclosure_id) is not distinct from (h.keeper, h.centre_id, h.enclosure_id)
           as "isBeside"
    from casualty c
    join whereabouts h on h.casualty_id = c.id and h.until is null
    join whereabouts w on w.until is null
    join casualty m on m.id = w.casualty_id
    left join enclosure e on e.id = w.enclosure_id
    left join lateral (select place_no from claim where keeping_id = w.keeping_id and kind = 'stay' and state = 'live'
                        order by starts_at desc limit 1) l on true
   where c.id = ${casualtyId}::int and ${who}
   order by m.member_no nulls first, m.id`

export type InCare = Beside & { readonly isBeside: boolean }

/** Those of an animal's batch that are still with somebody, it among them. */
export function listBatchInCare(_grant: Grant<'casualty.read'>, casualtyId: number): Promise<InCare[]> {
  return db().$queryRaw<InCare[]>(besideSql(casualtyId, COUNTED_WITH))
}

/** All that are at its centre, it and those counted with it among them. */
export function listAtItsCentre(_grant: Grant<'casualty.read'>, casualtyId: number): Promise<Beside[]> {
  return db().$queryRaw<Beside[]>(besideSql(casualtyId, AT_ITS_CENTRE))
}

/** Those of an animal's batch that are where it is, by their number in it. Nobody regroups them until the commit. */
export async function lockBatchBeside({ tx }: EntryTx, casualtyId: number): Promise<Beside[]> {
  await lockBatches(tx, [casualtyId], 'for update')
  return listBeside(tx, casualtyId)
}

/**
 * The lowest that nobody can tell apart, of those where this animal is: locked, past whatever another entry has in
 * hand. Nothing where no two are there to be mixed up.
 */
export async function lockOneOfBatch(
  { tx }: EntryTx,
  casualtyId: number,
): Promise<{ readonly one: Beside; readonly others: readonly Beside[] } | undefined> {
  await lockBatches(tx, [casualtyId], 'for share')
  const beside = await listBeside(tx, casualtyId)
  if (beside.length < 2) return undefined
  const alike = beside.filter(({ toldBy }) => toldBy === null).map(({ id }) => id)
  for (const wait of [Prisma.sql`skip locked`, Prisma.empty]) {
    const gone = new Set<number>()
    for (let tries = 0; tries < alike.length; tries++) {
      const [next] = await tx.$queryRaw<{ id: number }[]>`
        select id from casualty where id = any (${alike.filter(id => !gone.has(id))}::int[]) and told_by is null
         order by member_no limit 1 for no key update ${wait}`
      if (next === undefined) break
      // Only now is it ours: whoever had it before may have recorded its end.
      const left = await listBeside(tx, casualtyId)
      const one = left.find(({ id }) => id === next.id)
      if (one !== undefined) return { one, others: left.filter(({ id }) => id !== one.id) }
      gone.add(next.id)
    }
  }
  return undefined
}

/** Locks the batches of these animals, then the animals of them, and reads those beside each. */
export async function lockGroups({ tx }: EntryTx, casualtyIds: readonly number[]): Promise<Beside[][]> {
  await lockBatches(tx, casualtyIds, 'for update')
  await tx.$queryRaw`
    select 1 from casualty
     where id = any (${casualtyIds}::int[])
        or batch_id in (select batch_id from casualty where id = any (${casualtyIds}::int[]))
     order by id for no key update`
  const groups: Beside[][] = []
  for (const id of casualtyIds) groups.push(await listBeside(tx, id))
  return groups
}

async function lockBatches(tx: Tx, casualtyIds: readonly number[], how: 'for share' | 'for update') {
  const mode = how === 'for share' ? Prisma.sql`for share` : Prisma.sql`for update`
  await tx.$queryRaw`
    select 1 from batch where id in (select batch_id from casualty where id = any (${casualtyIds}::int[]))
     order by id ${mode}`
}

async function listBeside(tx: Tx, casualtyId: number): Promise<Beside[]> {
  const rows = await tx.$queryRaw<InCare[]>(besideSql(casualtyId, COUNTED_WITH))
  return rows.filter(({ isBeside }) => isBeside)
}
