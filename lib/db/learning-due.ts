/**
 * Whether records say more than was learned from them.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'

/**
 * Whether anything was entered since the network stood at `revision` that speaks of stages before an instant: began, was
 * ready, ended, a check, or another plan. An animal's first plan alone says nothing yet.
 */
export async function isToldSince(
  _grant: Grant<'system.run'>,
  revision: number,
  before: Date,
): Promise<boolean> {
  const [row] = await db().$queryRaw<{ told: boolean }[]>`
    with since as materialized (select id from entry where revision > ${revision}::int)
    select exists (select from stage_fact f where f.entry_id in (select id from since) and f.at < ${before}::timestamptz)
        or exists (select from keeping k where k.entry_id in (select id from since) and k.since < ${before}::timestamptz
                      and (k.keeper = 'nobody' or k.supersedes is not null))
        or exists (select from check_due c where c.entry_id in (select id from since) and c.done_at < ${before}::timestamptz)
        or exists (select from casualty_plan p where p.entry_id in (select id from since) and p.version_no > 1) as told`
  return row?.told ?? false
}
