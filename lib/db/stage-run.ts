/**
 * Who is in a stage since when, how long the plan says it takes, and what a vet said of it.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type StageEstimate, stageEstimate } from '#lib/domain/estimate.ts'
import { db } from './client.ts'
import { anyOf } from './due-part.ts'

export type StageRun = {
  readonly casualtyId: number
  readonly reference: string
  readonly species: string
  readonly centre: string
  readonly stageNo: number
  readonly began: Date
  readonly estimate: StageEstimate
  readonly planIds: readonly string[]
  readonly admittedAt: Date
  /** About so many days longer, from then on: the newest word of a vet that counts. */
  readonly word: { readonly at: Date; readonly inDays: number } | null
}

type Row = Omit<StageRun, 'estimate' | 'word'> & {
  readonly estimate: unknown
  readonly saidAt: Date | null
  readonly inDays: number | null
}

/** Who is in a stage at these centres since when, and how long the plan says it takes; not those recorded ready. */
export async function listStageRuns(
  _grant: Grant<'due.read'>,
  centreIds: readonly number[],
): Promise<StageRun[]> {
  const rows = await db().$queryRaw<Row[]>`
    select cs.id as "casualtyId", cs.reference, sp.common_name as species, ce.name as centre,
           st.stage_no as "stageNo", coalesce(f.at, a.at) as began, st.estimate,
           st.plan_ids as "planIds", a.at as "admittedAt",
           v.at as "saidAt", v.in_days as "inDays"
      from whereabouts w join casualty cs on cs.id = w.casualty_id join species sp on sp.slug = cs.species_slug
      join centre ce on ce.id = w.centre_id join arrival a on a.id = cs.arrival_id
      left join lateral (select f.stage_no, f.at from stage_fact f
         where f.casualty_id = cs.id and f.kind = 'began' and not f.is_void
           and not exists (select from stage_fact z where z.supersedes = f.id)
         order by f.stage_no desc, f.id desc limit 1) f on true
      -- Asked animal by animal: as a plain join it would read every stage there ever was.
      join lateral (select s.stage_no, s.estimate, pl.plan_ids
          from casualty_stage s join casualty_plan pl on pl.id = s.casualty_plan_id
         where s.casualty_plan_id = (select max(p.id) from casualty_plan p where p.casualty_id = cs.id)
           and s.stage_no = coalesce(f.stage_no, 1) limit 1) st on true
      left join lateral (select x.at, x.in_days from vet_word_now x
         where x.casualty_id = cs.id and x.stage_no = f.stage_no and x.counts
         order by x.at desc, x.id desc limit 1) v on true
     where w.until is null and w.keeper = 'centre' and w.centre_id = ${anyOf(centreIds)}
       and not exists (select from stage_fact r where r.casualty_id = cs.id and r.kind = 'ready' and not r.is_void
             and r.stage_no = st.stage_no and not exists (select from stage_fact z where z.supersedes = r.id))`
  return rows.flatMap(({ saidAt, inDays, ...row }) => {
    const estimate = stageEstimate.safeParse(row.estimate).data
    const word = saidAt === null || inDays === null ? null : { at: saidAt, inDays }
    return estimate === undefined ? [] : [{ ...row, estimate, word }]
  })
}
