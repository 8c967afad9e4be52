/**
 * What a vet's yes books: the departure, the checks that go with it.
 * Promise: checks counted from surgery get their days from the day the vet sees it; one that was done stays as it was.
 * Writes run inside an entry, under the casualty's lock. Days are civil dates.
 */
import 'server-only'
import { type DayNumber, dateOfDay } from '#lib/domain/day.ts'
import type { EntryTx } from './entry.ts'

export type CheckMade = {
  readonly checkSlug: string
  readonly what: string
  readonly dueOn: DayNumber
  readonly who: 'carer' | 'vet'
}

/** Dates what is counted from surgery, adds what is missing of it, and the checks of the visit itself. */
export async function bookChecks(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  seenOn: DayNumber,
  visit: readonly CheckMade[],
): Promise<void> {
  const day = dateOfDay(seenOn)
  await tx.$queryRaw`
    with gate as (
      select distinct on (s.stage_no, g.check_slug) s.stage_no, g.*
        from casualty_plan p
        join casualty_stage s on s.casualty_plan_id = p.id
        join care_plan_gate g on g.plan_id = any (p.plan_ids) and g.stage = s.stage
       where p.id = (select max(id) from casualty_plan where casualty_id = ${casualtyId}::int)
         and g.anchor = 'surgery' and g.offset_days is not null
       order by s.stage_no, g.check_slug, g.offset_days),
    dated as (
      update check_due c set due_on = ${day}::date + gate.offset_days
        from gate
       where c.casualty_id = ${casualtyId}::int and c.stage_no = gate.stage_no and c.check_slug = gate.check_slug
         and c.done_at is null and c.called_off_at is null
      returning 1),
    made as (
      insert into check_due (casualty_id, entry_id, stage_no, check_slug, what, due_on, interval_days, required_for, who, mark)
      select ${casualtyId}::int, ${entryId}::int, gate.stage_no, gate.check_slug, gate.what, ${day}::date + gate.offset_days,
             gate.interval_days, gate.required_for, gate.who, gate.mark
        from gate
       where not exists (select from check_due c where c.casualty_id = ${casualtyId}::int
               and c.stage_no = gate.stage_no and c.check_slug = gate.check_slug)
      returning 1)
    select (select count(*) from dated)::int, (select count(*) from made)::int`
  const stageNo = await stageNow({ tx, entryId }, casualtyId)
  await tx.checkDue.createMany({
    data: visit.map(({ dueOn, ...check }) => ({
      ...check,
      casualtyId,
      entryId,
      stageNo,
      dueOn: new Date(dateOfDay(dueOn)),
      mark: 'CP',
    })),
  })
}

/** The stage it is in; the first before any began. */
async function stageNow({ tx }: EntryTx, casualtyId: number): Promise<number> {
  const [row] = await tx.$queryRaw<{ no: number }[]>`
    select coalesce(max(f.stage_no), 1)::int as no from stage_fact f
     where f.casualty_id = ${casualtyId}::int and f.kind = 'began' and not f.is_void
       and not exists (select from stage_fact z where z.supersedes = f.id)`
  return row?.no ?? 1
}

/** Whether it is at a centre now, so that it leaves a place when it goes to the vet. */
export async function isAtCentre({ tx }: EntryTx, casualtyId: number): Promise<boolean> {
  const found = await tx.whereabouts.findFirst({
    where: { casualtyId, until: null, keeper: 'centre' },
    select: { keepingId: true },
  })
  return found !== null
}
