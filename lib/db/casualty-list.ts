/**
 * Who is where, a page at a time: filtered, put in order and cut in the database.
 * Promise: first the ids of the page are found with only what filter and order need, then what is shown of those; a
 * carer's list holds only animals that are at, or expected at, own centres. Instants are UTC, days civil dates.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { CARE_STAGES, type CareStage } from '#lib/domain/housing.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import type { ListKind, ListOrder, ShortCause } from '#lib/domain/who-is-where.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'

export type ListWanted = {
  readonly kind: ListKind
  readonly centreId?: number | undefined
  readonly group?: string | undefined
  readonly stage?: CareStage | undefined
  readonly text?: string | undefined
  readonly order: ListOrder
  readonly isDescending: boolean
  readonly now: Date
  readonly limit: number
  readonly offset: number
  /** The likely last day of each stay by casualty, since only the forecast knows it. */
  readonly untilById: ReadonlyMap<number, number>
}

export type Keeper = 'finder' | 'driver' | 'practice' | 'centre' | 'nobody'

export type ListRow = {
  readonly id: number
  readonly reference: string
  readonly species: string
  readonly group: string
  readonly age: string
  readonly keeper: Keeper
  readonly keeperName: string | null
  readonly centre: string | null
  readonly enclosure: string | null
  readonly since: Date
  readonly arrivedAt: Date
  readonly outcome: Outcome | null
  readonly stage: CareStage | null
  readonly stageNo: number | null
  readonly readyAt: Date | null
  readonly isLastStage: boolean
  readonly short: ShortCause | null
  readonly expectedAt: Date | null
  readonly expectedIn: string | null
  readonly checkSlug: string | null
  /** Whole days since 1970-01-01. */
  readonly checkDueOn: number | null
}

const began = Prisma.sql`(select f.stage_no from stage_fact f
  where f.casualty_id = c.id and f.kind = 'began' and not f.is_void
    and not exists (select from stage_fact z where z.supersedes = f.id)
  order by f.stage_no desc, f.id desc limit 1)`
const newestPlan = Prisma.sql`(select max(p.id) from casualty_plan p where p.casualty_id = c.id)`
const stageNow = Prisma.sql`(select s.stage from casualty_stage s
  where s.casualty_plan_id = ${newestPlan} and s.stage_no = coalesce(${began}, 1))`
const lastStageNo = Prisma.sql`(select max(s.stage_no) from casualty_stage s where s.casualty_plan_id = ${newestPlan})`
const readyAt = Prisma.sql`(select f.at from stage_fact f
  where f.casualty_id = c.id and f.kind = 'ready' and not f.is_void and f.stage_no = coalesce(${began}, 1)
    and not exists (select from stage_fact z where z.supersedes = f.id)
  order by f.id desc limit 1)`
const liveHold = Prisma.sql`select h.expected_at, e.name, e.centre_id, ce.name as centre
  from claim h join enclosure e on e.id = h.enclosure_id join centre ce on ce.id = e.centre_id
 where h.casualty_id = c.id and h.kind = 'hold' and h.state = 'live'`
const nextDue = Prisma.sql`(select min(d.due_on) from check_due d
  where d.casualty_id = c.id and d.done_at is null and d.called_off_at is null)`

/** How many there are, and those of one page in order. */
export async function listCasualties(
  grant: Grant<'placement.read' | 'casualty.read'>,
  wanted: ListWanted,
): Promise<{ readonly total: number; readonly rows: readonly ListRow[] }> {
  const from = Prisma.sql`from whereabouts w join casualty c on c.id = w.casualty_id
    join species sp on sp.slug = c.species_slug
    left join centre ce on ce.id = w.centre_id left join enclosure e on e.id = w.enclosure_id
    where w.until is null and ${Prisma.join(conditions(grant, wanted), ' and ')}`
  const [counted, found] = await Promise.all([
    db().$queryRaw<{ total: number }[]>`select count(*)::int as total ${from}`,
    db().$queryRaw<{ id: number }[]>`
      select c.id ${from} order by ${orderOf(wanted)}, c.id limit ${wanted.limit} offset ${wanted.offset}`,
  ])
  const ids = found.map(({ id }) => id)
  return { total: counted[0]?.total ?? 0, rows: ids.length === 0 ? [] : await rowsOf(ids, wanted.now) }
}

function conditions({ scope }: Grant<'placement.read' | 'casualty.read'>, wanted: ListWanted): Prisma.Sql[] {
  const { centreId, group, stage, text } = wanted
  const found = [ofKind(wanted)]
  const atCentres = (ids: readonly number[]) =>
    Prisma.sql`(w.centre_id = any (${[...ids]}::int[])
      or exists (select from (${liveHold}) h where h.centre_id = any (${[...ids]}::int[])))`
  if (scope.kind === 'own') {
    const withPractices = Prisma.sql`exists (select from keeping k where k.id = w.keeping_id
      and k.practice_id = any (${[...scope.practiceIds]}::int[]))`
    found.push(Prisma.sql`(${atCentres(scope.centreIds)} or ${withPractices})`)
  }
  if (centreId !== undefined) found.push(atCentres([centreId]))
  if (group !== undefined) found.push(Prisma.sql`sp.group_slug = ${group}`)
  if (stage !== undefined) found.push(Prisma.sql`${stageNow} = ${stage}`)
  if (text !== undefined) {
    const like = `%${text.replaceAll(/[\\%_]/g, '\\$&')}%`
    found.push(Prisma.sql`(c.reference ilike ${like} or sp.common_name ilike ${like}
      or sp.scientific_name ilike ${like} or array_to_string(sp.also_called, ' ') ilike ${like})`)
  }
  return found
}

function ofKind({ kind, now }: ListWanted): Prisma.Sql {
  const isOpen = Prisma.sql`w.keeper <> 'nobody'`
  switch (kind) {
    case 'in care':
      return isOpen
    case 'gone':
      return Prisma.sql`w.keeper = 'nobody'`
    case 'short':
      // A scalar, so that it is asked animal by animal; as a join it would work out the whole history.
      return Prisma.sql`w.keeper = 'centre' and (select true from short x
        where x.casualty_id = w.casualty_id and x.keeping_id = w.keeping_id
          and x.starts_at <= ${now}::timestamptz and (x.ends_at is null or x.ends_at > ${now}::timestamptz) limit 1)`
    case 'ready':
      return Prisma.sql`${isOpen} and ${readyAt} is not null and coalesce(${began}, 1) < ${lastStageNo}`
    case 'fit':
      return Prisma.sql`${isOpen} and ${readyAt} is not null and coalesce(${began}, 1) = ${lastStageNo}`
    case 'on the way':
      return Prisma.sql`${isOpen} and (w.keeper <> 'centre' or exists (${liveHold}))`
  }
}

function orderOf({ order, isDescending, untilById }: ListWanted): Prisma.Sql {
  const way = isDescending ? Prisma.sql`desc nulls last` : Prisma.sql`asc nulls last`
  switch (order) {
    case 'reference':
      return Prisma.sql`split_part(c.reference, ' ', 1) ${way}, substring(c.reference from '\\d+$')::int ${way}`
    case 'species':
      return Prisma.sql`sp.common_name ${way}`
    case 'stage':
      return Prisma.sql`array_position(${[...CARE_STAGES]}::text[], ${stageNow}) ${way}`
    case 'place':
      return Prisma.sql`ce.name ${way},
        (select r.walking_order from room r where r.id = e.room_id) ${way}, e.walking_order ${way}`
    case 'since':
      return Prisma.sql`w.since ${way}`
    case 'check':
      return Prisma.sql`${nextDue} ${way}`
    case 'until':
      return Prisma.sql`(${[...untilById.values()]}::int[])[array_position(${[...untilById.keys()]}::int[], c.id)] ${way}`
  }
}

async function rowsOf(ids: readonly number[], now: Date): Promise<ListRow[]> {
  return db().$queryRaw<ListRow[]>`
    select c.id, c.reference, sp.common_name as species, sp.group_slug as "group", c.age, w.keeper,
           coalesce(pr.name, dr.name) as "keeperName", ce.name as centre, e.name as enclosure, w.since,
           a.at as "arrivedAt", k.outcome, st.stage, st.stage_no as "stageNo", ${readyAt} as "readyAt",
           coalesce(st.stage_no = ${lastStageNo}, false) as "isLastStage", x.because as short,
           h.expected_at as "expectedAt", h.centre || ', ' || h.name as "expectedIn",
           d.check_slug as "checkSlug", (d.due_on - date '1970-01-01')::int as "checkDueOn"
      from unnest(${[...ids]}::int[]) with ordinality as page (id, at)
      join casualty c on c.id = page.id
      join arrival a on a.id = c.arrival_id
      join species sp on sp.slug = c.species_slug
      join whereabouts w on w.casualty_id = c.id and w.until is null
      join keeping k on k.id = w.keeping_id
      left join practice pr on pr.id = k.practice_id
      left join driver dr on dr.id = k.driver_id
      left join centre ce on ce.id = w.centre_id
      left join enclosure e on e.id = w.enclosure_id
      left join casualty_stage st on st.casualty_plan_id = ${newestPlan} and st.stage_no = coalesce(${began}, 1)
      left join lateral (${liveHold} order by h.expected_at limit 1) h on true
      left join lateral (select d.check_slug, d.due_on from check_due d
         where d.casualty_id = c.id and d.done_at is null and d.called_off_at is null and d.due_on is not null
         order by d.due_on, d.id limit 1) d on true
      left join lateral (select s.because from short s
         where s.casualty_id = c.id and s.keeping_id = w.keeping_id
           and s.starts_at <= ${now}::timestamptz and (s.ends_at is null or s.ends_at > ${now}::timestamptz)
         limit 1) x on true
     order by page.at`
}
