/**
 * Animals that are counted together. Runs inside an entry, which locks the batch: of two who write at once, each takes
 * another animal.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

export type Member = { readonly id: number; readonly reference: string }

/** How many of an animal's batch are still with somebody; none where it came alone. */
export async function countBatchInCare(_grant: Grant<'casualty.read'>, casualtyId: number): Promise<number> {
  const [row] = await db().$queryRaw<{ count: number }[]>`
    select count(*)::int as count
      from casualty c join casualty m on m.batch_id = c.batch_id
      join whereabouts w on w.casualty_id = m.id and w.until is null and w.keeper <> 'nobody'
     where c.id = ${casualtyId}::int`
  return row?.count ?? 0
}

/** Those of an animal's batch that are where it is, by their number in it. */
export async function lockBatchBeside({ tx }: EntryTx, casualtyId: number): Promise<Member[]> {
  await tx.$queryRaw`
    select 1 from batch where id = (select batch_id from casualty where id = ${casualtyId}::int) for update`
  return tx.$queryRaw<Member[]>`
    select m.id, m.reference
      from casualty c join casualty m on m.batch_id = c.batch_id
      join whereabouts w on w.casualty_id = m.id and w.until is null and w.keeper <> 'nobody'
      join whereabouts h on h.casualty_id = c.id and h.until is null
     where c.id = ${casualtyId}::int
       and (w.keeper, w.centre_id, w.enclosure_id) is not distinct from (h.keeper, h.centre_id, h.enclosure_id)
     order by m.member_no`
}
