/**
 * Every stage that ever began, as it was recorded: its plan, when it began, when the animal was said ready, how it ended.
 * Promise: one row a stage of a plan's newest version; what was taken back or corrected is left out; nothing names a person.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type StageEstimate, stageEstimate } from '#lib/domain/estimate.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import { db } from './client.ts'

export type StageRecordRow = {
  readonly casualtyId: number
  readonly admittedAt: Date
  /** The care plans that were put together, each named by condition, group, severity and treatment. */
  readonly planIds: readonly string[]
  readonly stageNo: number
  readonly estimate: StageEstimate
  readonly beganAt: Date
  readonly beganEarliest: Date | null
  readonly readyAt: Date | null
  readonly readyEarliest: Date | null
  readonly nextAt: Date | null
  readonly endedAt: Date | null
  readonly endedEarliest: Date | null
  readonly outcome: Outcome | null
  /** The last day on which a check that the next stage asks for was done and not passed. */
  readonly notPassedAt: Date | null
}

/** Every revision there is, of a counter that PostgreSQL holds. */
const NEWEST = 2_147_483_647

/**
 * Those of animals admitted before `before`, in the order in which the animals came, as they were known when the network
 * stood at `revision`: what was entered since is left out, and what was corrected or taken back since stands again. Only a
 * check that was taken back since is open again whenever that was.
 */
export async function listStageRecords(
  _grant: Grant<'system.run'>,
  before: Date,
  revision = NEWEST,
): Promise<StageRecordRow[]> {
  const rows = await db().$queryRaw<(Omit<StageRecordRow, 'estimate'> & { readonly estimate: unknown })[]>`
    with entered as materialized (select id from entry where revision <= ${revision}::int),
    known as materialized (select f.* from stage_fact f join entered on entered.id = f.entry_id),
    fact as materialized (
      select f.* from known f where not f.is_void and not exists (select from known z where z.supersedes = f.id)),
    began as materialized (
      select x.*, lead(x.at) over (partition by x.casualty_id order by x.stage_no) as next_at
        from (select distinct on (casualty_id, stage_no) * from fact where kind = 'began'
               order by casualty_id, stage_no, at, id) x),
    ready as materialized (
      select distinct on (casualty_id, stage_no) * from fact where kind = 'ready' order by casualty_id, stage_no, at desc, id desc),
    plan as materialized (
      select distinct on (p.casualty_id) p.* from casualty_plan p join entered on entered.id = p.entry_id
       order by p.casualty_id, p.version_no desc),
    ended as materialized (
      select w.casualty_id, k.since, k.since_earliest, k.outcome
        from keeping_as_known_on(${revision}::int) w join keeping k on k.id = w.keeping_id
       where w.until is null and w.keeper = 'nobody'),
    unpassed as materialized (
      select casualty_id, stage_no, max(done_at) as at from check_due
       where done_at is not null and not passed and required_for is not null
         and (entry_id is null or entry_id in (select id from entered))
       group by casualty_id, stage_no)
    select b.casualty_id as "casualtyId", a.at as "admittedAt", p.plan_ids as "planIds", s.stage_no as "stageNo", s.estimate,
           b.at as "beganAt", b.at_earliest as "beganEarliest", r.at as "readyAt", r.at_earliest as "readyEarliest",
           b.next_at as "nextAt", u.at as "notPassedAt",
           case when b.next_at is null then e.since end as "endedAt",
           case when b.next_at is null then e.since_earliest end as "endedEarliest",
           case when b.next_at is null then e.outcome end as outcome
      from began b join casualty c on c.id = b.casualty_id join arrival a on a.id = c.arrival_id
      join plan p on p.casualty_id = b.casualty_id
      join casualty_stage s on s.casualty_plan_id = p.id and s.stage_no = b.stage_no
      left join ready r on r.casualty_id = b.casualty_id and r.stage_no = b.stage_no
      left join ended e on e.casualty_id = b.casualty_id
      left join unpassed u on u.casualty_id = b.casualty_id and u.stage_no = b.stage_no
     where a.at < ${before}::timestamptz
     order by a.at, b.casualty_id, b.stage_no`
  return rows.flatMap(row => {
    const estimate = stageEstimate.safeParse(row.estimate).data
    return estimate === undefined ? [] : [{ ...row, estimate }]
  })
}
