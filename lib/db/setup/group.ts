/**
 * Groups of species with temperament and usual numbers. Writes run inside an entry and over the version that was read.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import type { GroupHousing, HousedAnimal } from '#lib/domain/group-housing.ts'
import { CARE_STAGES, HOUSING_TYPES } from '#lib/domain/housing.ts'
import { CLASSES, type Group, MINUTES_OF } from '#lib/domain/knowledge-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { civilDate, dateColumn } from './civil-date.ts'
import { refuseStale } from './stale.ts'

type AnimalClass = (typeof CLASSES)[number]
export type GroupRow = Group & {
  readonly slug: string
  readonly class: AnimalClass
  readonly isActive: boolean
  readonly species: number
  readonly version: number
}

const minutesColumn = z.partialRecord(z.enum(MINUTES_OF), z.number())
const stockColumn = z.partialRecord(z.enum(HOUSING_TYPES), z.int())
const included = { _count: { select: { speciesByGroupSlug: { where: { isActive: true } } } } } as const
const housingColumn = z.partialRecord(z.enum(CARE_STAGES), z.array(z.enum(HOUSING_TYPES)))

export async function listGroupRows(_grant: Grant<'setup.read'>): Promise<GroupRow[]> {
  const rows = await db().speciesGroup.findMany({
    include: included,
    orderBy: [{ isActive: 'desc' }, { class: 'asc' }, { name: 'asc' }],
  })
  return rows.map(groupOf)
}

export async function getGroupRow(_grant: Grant<'setup.read'>, slug: string): Promise<GroupRow> {
  const row = await db().speciesGroup.findUnique({ where: { slug }, include: included })
  if (row === null) throw new Failure('not-found')
  return groupOf(row)
}

export async function insertGroup(
  { tx }: EntryTx,
  key: { readonly slug: string; readonly class: AnimalClass },
  group: Group,
): Promise<void> {
  const made = await tx.speciesGroup.createMany({
    data: [{ ...key, ...columnsOf(group) }],
    skipDuplicates: true,
  })
  if (made.count === 0) throw new Failure('rule', { rule: 'species_group_name_once', field: 'name' })
}

export async function updateGroup(
  { tx }: EntryTx,
  { id, version }: { readonly id: string; readonly version: number },
  group: Group,
): Promise<void> {
  const written = await tx.speciesGroup.updateMany({
    where: { slug: id, version },
    data: { ...columnsOf(group), version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    tx.speciesGroup.findUnique({ where: { slug: id }, select: { version: true } }),
  )
}

/** Species that are switched on keep their group on. */
export async function updateGroupSwitch(
  { tx }: EntryTx,
  { id, version }: { readonly id: string; readonly version: number },
  isActive: boolean,
): Promise<void> {
  const written = await tx.speciesGroup.updateMany({
    where: { slug: id, version },
    data: { isActive, version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    tx.speciesGroup.findUnique({ where: { slug: id }, select: { version: true } }),
  )
  const isUsed = !isActive && (await tx.species.count({ where: { groupSlug: id, isActive: true } })) > 0
  if (isUsed) throw new Failure('rule', { rule: 'group-has-species' })
}

/** Animals of a group in enclosures or promised one, with the stage that runs, or the first where none has begun. */
export async function listHoused({ tx }: EntryTx, slug: string, at: Date): Promise<HousedAnimal[]> {
  return tx.$queryRaw<HousedAnimal[]>`
    with placed as (
      select w.casualty_id, w.enclosure_id, false as is_promise from whereabouts w
       where w.until is null and w.enclosure_id is not null
      union all
      select k.casualty_id, k.enclosure_id, true from claim k
       where k.kind = 'hold' and k.state = 'live' and k.expires_at > ${at}::timestamptz)
    select c.id as "casualtyId", c.reference, e.id as "enclosureId", e.name || ', ' || r.name || ', ' || s.name as enclosure,
           x.is_promise as "isPromise", t.stage, e.housing_type as housing
      from placed x
      join casualty c on c.id = x.casualty_id
      join species p on p.slug = c.species_slug and p.group_slug = ${slug}
      join enclosure e on e.id = x.enclosure_id join room r on r.id = e.room_id join centre s on s.id = e.centre_id
      cross join lateral (
        select g.stage from casualty_plan l join casualty_stage g on g.casualty_plan_id = l.id
         where l.casualty_id = c.id and l.version_no = (select max(n.version_no) from casualty_plan n where n.casualty_id = c.id)
           and g.stage_no = coalesce(
             (select max(f.stage_no) from stage_fact f
               where f.casualty_id = c.id and f.kind = 'began' and not f.is_void
                 and not exists (select from stage_fact z where z.supersedes = f.id)),
             (select min(o.stage_no) from casualty_stage o where o.casualty_plan_id = l.id))) t
     order by s.name, r.walking_order, e.walking_order, e.id, c.reference`
}

function columnsOf({ reviewedOn, housing, ...group }: Group) {
  return {
    ...group,
    housing: Object.fromEntries(Object.entries(housing).map(([stage, kinds]) => [stage, [...kinds]])),
    reviewedOn: dateColumn(reviewedOn),
  }
}

type Row = Omit<GroupRow, 'class' | 'housing' | 'stock' | 'minutes' | 'reviewedOn' | 'species'> & {
  readonly class: string
  readonly housing: unknown
  readonly minutes: unknown
  readonly stock: unknown
  readonly reviewedOn: Date | null
  readonly _count: { readonly speciesByGroupSlug: number }
}

function groupOf({ _count, housing, stock, minutes, reviewedOn, ...row }: Row): GroupRow {
  return {
    ...row,
    class: z.enum(CLASSES).parse(row.class),
    housing: housingColumn.parse(housing) satisfies GroupHousing,
    stock: stockColumn.parse(stock),
    minutes: minutesColumn.parse(minutes),
    reviewedOn: civilDate(reviewedOn),
    species: _count.speciesByGroupSlug,
  }
}
