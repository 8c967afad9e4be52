/**
 * Animals as they were known when the network stood at a revision: who had them since when, their plan, their stages.
 * Promise: one statement, so all of it belongs together. Species, age and company are those known today, of which records
 * keep no version that could be read so. Nothing names a person.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { networkState } from '#lib/domain/network-state.ts'
import type { PastAnimal } from '#lib/domain/past-resident.ts'
import { db } from './client.ts'

const stages = networkState.shape.residents.element.shape.stages
const keepings = z.array(
  z.object({
    keeper: z.enum(['finder', 'driver', 'practice', 'centre', 'nobody']),
    centreId: z.int().nullable(),
    since: z.coerce.date(),
  }),
)
const facts = z.array(z.object({ kind: z.enum(['began', 'ready']), no: z.int(), at: z.coerce.date() }))

const words = z.array(z.object({ no: z.int(), at: z.coerce.date(), inDays: z.int() }))

type Row = Omit<PastAnimal, 'stages' | 'keepings' | 'facts' | 'words'> & {
  readonly stages: unknown
  readonly keepings: unknown
  readonly facts: unknown
  readonly words: unknown
}

/** How far the network had come before an instant: the newest revision entered by then, 0 before the first. */
export async function findRevisionBefore(_grant: Grant<'system.run'>, instant: Date): Promise<number> {
  const [row] = await db().$queryRaw<{ revision: number }[]>`
    select coalesce(max(revision), 0)::int as revision from entry where entered_at < ${instant}::timestamptz`
  return row?.revision ?? 0
}

/**
 * All animals that anybody had been said to have at that revision, in the order of their numbers; with an instant, those
 * alone that somebody had then.
 */
export async function listPastAnimals(
  _grant: Grant<'system.run'>,
  revision: number,
  inCareAt: Date | null,
): Promise<PastAnimal[]> {
  const rows = await db().$queryRaw<Row[]>`
    with entered as materialized (select id from entry where revision <= ${revision}::int),
    kept as materialized (select * from keeping_as_known_on(${revision}::int)),
    had as materialized (
      select casualty_id, json_agg(json_build_object('keeper', keeper, 'centreId', centre_id, 'since', since)
               order by since, keeping_id) as keepings
        from kept group by casualty_id
      having ${inCareAt}::timestamptz is null or bool_or(keeper <> 'nobody'
         and since <= ${inCareAt}::timestamptz and (until is null or until > ${inCareAt}::timestamptz))),
    known as materialized (
      select f.* from stage_fact f join entered on entered.id = f.entry_id
       where f.casualty_id in (select casualty_id from had)),
    fact as materialized (
      select casualty_id, json_agg(json_build_object('kind', kind, 'no', stage_no, 'at', at) order by id) as facts
        from known f where not is_void and not exists (select from known z where z.supersedes = f.id)
       group by casualty_id),
    plan as materialized (
      select distinct on (p.casualty_id) p.* from casualty_plan p join entered on entered.id = p.entry_id
       where p.casualty_id in (select casualty_id from had) order by p.casualty_id, p.version_no desc),
    spoken as materialized (
      select w.* from vet_word w join entered on entered.id = w.entry_id
       where w.casualty_id in (select casualty_id from had)),
    word as materialized (
      select w.casualty_id, json_agg(json_build_object('no', w.stage_no, 'at', w.at, 'inDays', w.in_days)
               order by w.at, w.id) as words
        from spoken w
       where not w.is_void and not exists (select from spoken z where z.supersedes = w.id)
         -- A newer length of its stage holds instead, as everywhere.
         and not exists (
           select from casualty_plan p join entered on entered.id = p.entry_id join entry e on e.id = p.entry_id
             join casualty_stage s on s.casualty_plan_id = p.id and s.stage_no = w.stage_no
             join casualty_plan q on q.casualty_id = p.casualty_id and q.version_no = p.version_no - 1
             join casualty_stage o on o.casualty_plan_id = q.id and o.stage_no = s.stage_no
            where p.casualty_id = w.casualty_id and e.entered_at > w.at
              and s.estimate -> 'ready' is distinct from o.estimate -> 'ready')
       group by w.casualty_id),
    staged as materialized (
      select p.casualty_id, json_agg(json_build_object('no', s.stage_no, 'stage', s.stage, 'housing', s.housing_type,
               'housingAlso', to_json(s.housing_also), 'features', to_json(s.features), 'centreId', s.centre_id,
               'estimate', s.estimate) order by s.stage_no) as stages
        from plan p join casualty_stage s on s.casualty_plan_id = p.id group by p.casualty_id)
    select c.id, c.reference, c.species_slug as species, c.age, c.company_slug as company, c.is_alone as "isAlone",
           c.arrival_id as "arrivalId", coalesce(p.plan_ids, '{}') as "planIds", a.at as "admittedAt",
           h.keepings, coalesce(s.stages, '[]') as stages, coalesce(f.facts, '[]') as facts,
           coalesce(w.words, '[]') as words
      from had h join casualty c on c.id = h.casualty_id join arrival a on a.id = c.arrival_id
      left join plan p on p.casualty_id = c.id left join staged s on s.casualty_id = c.id
      left join fact f on f.casualty_id = c.id left join word w on w.casualty_id = c.id
     order by c.id`
  return rows.map(row => ({
    ...row,
    stages: stages.parse(row.stages),
    keepings: keepings.parse(row.keepings),
    facts: facts.parse(row.facts),
    words: words.parse(row.words),
  }))
}
