/**
 * Proposed moves that were set aside: written, taken up again, read while they stand.
 * Promise: one row a decision, kept for good; whether it still stands is worked out from the animal as it is now. Writes
 * run under the casualty's lock.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type AsideReason, asideReason } from '#lib/domain/move-aside.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

type Tx = EntryTx['tx']

export type MoveAside = {
  readonly id: number
  readonly casualtyId: number
  readonly reference: string
  readonly species: string
  readonly from: string
  readonly to: string
  readonly at: Date
  readonly by: string | null
  readonly reason: AsideReason
  readonly words: string | null
  /** The first day on which it is proposed again, as a date. */
  readonly untilOn: string | null
}

/** Those that stand on a day, the newest first. */
export async function listMovesAside(_grant: Grant<'move.read'>, today: string): Promise<MoveAside[]> {
  const rows = await db().$queryRaw<(Omit<MoveAside, 'reason'> & { reason: string })[]>`
    select a.id, a.casualty_id as "casualtyId", c.reference, s.common_name as species, h.name as from, t.name as to,
           a.at, p.name as by, a.reason, a.words, a.until_on::text as "untilOn"
      from moves_aside(${today}::date) a
      join casualty c on c.id = a.casualty_id
      join species s on s.slug = c.species_slug
      join keeping k on k.id = a.keeping_id
      join centre h on h.id = k.centre_id
      join centre t on t.id = a.to_centre_id
      left join person p on p.id = a.set_by
     order by a.id desc`
  return rows.map(row => ({ ...row, reason: asideReason.parse(row.reason) }))
}

export type NewAside = {
  readonly casualtyId: number
  readonly toCentreId: number
  readonly reason: AsideReason
  readonly words: string | null
  readonly untilOn: string | null
  readonly setBy: number | null
}

/** Sets a move aside as the animal is now. Failure where it is at no centre, or set aside already. */
export async function insertAside(tx: Tx, aside: NewAside, today: string, at: Date): Promise<number> {
  const { casualtyId } = aside
  await tx.$queryRaw`select 1 from casualty where id = ${casualtyId}::int for no key update`
  const [stands] = await tx.$queryRaw<{ id: number }[]>`
    select id from moves_aside(${today}::date) where casualty_id = ${casualtyId}::int limit 1`
  if (stands !== undefined) throw new Failure('conflict', { rule: 'move-aside-already' })
  const [row] = await tx.$queryRaw<{ id: number }[]>`
    insert into move_aside (casualty_id, to_centre_id, at, set_by, reason, words, until_on, keeping_id, plan_version, stage_fact_id)
    select w.casualty_id, ${aside.toCentreId}::int, ${at}::timestamptz, ${aside.setBy}::int, ${aside.reason}::text,
           ${aside.words}::text, ${aside.untilOn}::date, w.keeping_id,
           (select max(version_no) from casualty_plan where casualty_id = w.casualty_id),
           (select max(id) from stage_fact where casualty_id = w.casualty_id)
      from whereabouts w where w.casualty_id = ${casualtyId}::int and w.until is null and w.keeper = 'centre'
    returning id`
  if (row === undefined) throw new Failure('rule', { rule: 'transfer-from-a-centre' })
  return row.id
}

/** Takes it up again; returns whose move it is. Failure where somebody did, or it is over by itself. */
export async function takeUpAside(
  tx: Tx,
  id: number,
  by: number | null,
  today: string,
  at: Date,
): Promise<number> {
  await tx.$queryRaw`
    select 1 from casualty where id = (select casualty_id from move_aside where id = ${id}::int) for no key update`
  const [taken] = await tx.$queryRaw<{ casualtyId: number }[]>`
    update move_aside set taken_up_at = ${at}::timestamptz, taken_up_by = ${by}::int
     where id = ${id}::int and id in (select id from moves_aside(${today}::date))
    returning casualty_id as "casualtyId"`
  if (taken === undefined) throw new Failure('conflict', { rule: 'move-aside-over' })
  return taken.casualtyId
}
