/**
 * Releases: who is fit and still here, what is planned, what was done and what stood against it.
 * Promise: a carer's rows are of her own centres; an animal is in one planned release at a time (a constraint). Writes
 * run inside an entry (entry.ts). Instants are UTC.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { type Bar, RELEASE_WAYS, type ReleaseWay, WAITS_FOR, type WaitsFor } from '#lib/domain/release.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

type Reads = Grant<'casualty.read'>

export type FitRow = {
  readonly id: number
  readonly reference: string
  readonly species: string
  readonly speciesName: string
  readonly centreId: number
  readonly centre: string
  readonly enclosure: string | null
  readonly fitAt: Date
  readonly waitsFor: readonly WaitsFor[]
  readonly isPlanned: boolean
}

const newestWait = Prisma.sql`(select x.waits_for from release_wait x where x.casualty_id = c.id order by x.id desc limit 1)`
const waits = z.array(z.enum(WAITS_FOR))

function ofCentres({ scope }: Grant, column: Prisma.Sql): Prisma.Sql {
  return scope.kind === 'everywhere'
    ? Prisma.sql`true`
    : Prisma.sql`${column} = any (${[...scope.centreIds]}::int[])`
}

/** Ready to leave the last stage of the newest plan, at a centre, the longest first. */
export async function listFit(grant: Reads): Promise<FitRow[]> {
  const rows = await db().$queryRaw<(Omit<FitRow, 'waitsFor'> & { readonly waitsFor: unknown })[]>`
    select c.id, c.reference, c.species_slug as species, sp.common_name as "speciesName", w.centre_id as "centreId",
           ce.name as centre, e.name as enclosure, r.at as "fitAt", coalesce(${newestWait}, '{}') as "waitsFor",
           exists (select from release_animal a where a.casualty_id = c.id and a.state = 'planned') as "isPlanned"
      from whereabouts w join casualty c on c.id = w.casualty_id join species sp on sp.slug = c.species_slug
      join centre ce on ce.id = w.centre_id left join enclosure e on e.id = w.enclosure_id
      join lateral (select f.at from stage_fact f
         where f.casualty_id = c.id and f.kind = 'ready' and not f.is_void
           and not exists (select from stage_fact z where z.supersedes = f.id)
           and f.stage_no = (select max(s.stage_no) from casualty_stage s
             where s.casualty_plan_id = (select max(p.id) from casualty_plan p where p.casualty_id = c.id))
         order by f.id desc limit 1) r on true
     where w.until is null and w.keeper = 'centre' and ${ofCentres(grant, Prisma.sql`w.centre_id`)}
     order by r.at, c.id`
  return rows.map(row => ({ ...row, waitsFor: waits.parse(row.waitsFor) }))
}

export type ReleaseRow = {
  readonly id: number
  readonly state: 'planned' | 'done'
  readonly at: Date
  readonly site: string
  readonly latitude: number | null
  readonly longitude: number | null
  readonly way: ReleaseWay
  readonly releaser: string
  readonly animals: readonly {
    readonly id: number
    readonly reference: string
    readonly species: string
    readonly speciesName: string
    readonly ring: string | null
    readonly isFlagged: boolean
  }[]
}

const releaseRow = z.object({
  id: z.int(),
  state: z.enum(['planned', 'done']),
  at: z.date(),
  site: z.string(),
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
  way: z.enum(RELEASE_WAYS),
  releaser: z.string(),
  animals: z.array(
    z.object({
      id: z.int(),
      reference: z.string(),
      species: z.string(),
      speciesName: z.string(),
      ring: z.string().nullable(),
      isFlagged: z.boolean(),
    }),
  ),
})

/** Planned releases, and those done since an instant; of a carer's centres by where the animals are or were last. */
export async function listReleases(grant: Reads, since: Date): Promise<ReleaseRow[]> {
  const at = Prisma.sql`(select b.centre_id from whereabouts b where b.casualty_id = c.id and b.keeper = 'centre'
    order by b.since desc limit 1)`
  const rows = await db().$queryRaw<unknown[]>`
    select r.id, r.state, r.at, r.site, r.latitude, r.longitude, r.way, r.releaser,
           jsonb_agg(jsonb_build_object('id', c.id, 'reference', c.reference, 'species', c.species_slug,
             'speciesName', sp.common_name, 'ring', a.ring,
             'isFlagged', exists (select from release_against x where x.keeping_id = a.keeping_id)) order by c.id) as animals
      from release r join release_animal a on a.release_id = r.id
      join casualty c on c.id = a.casualty_id join species sp on sp.slug = c.species_slug
     where (r.state = 'planned' and a.state = 'planned' or r.state = 'done' and a.state = 'gone' and r.at >= ${since}::timestamptz)
       and (a.state = 'gone' or exists (select from whereabouts w
             where w.casualty_id = c.id and w.until is null and w.keeper <> 'nobody'))
       and ${ofCentres(grant, at)}
     group by r.id order by r.state desc, r.at desc, r.id`
  return rows.map(row => releaseRow.parse(row))
}

/** How many left for the wild since an instant by a line of the round or a card, without a release of their own. */
export async function countLeftWithoutPlan(grant: Reads, since: Date): Promise<number> {
  const rows = await db().$queryRaw<{ readonly animals: number }[]>`
    select count(*)::int as animals
      from whereabouts w join keeping k on k.id = w.keeping_id
      join lateral (select b.centre_id from whereabouts b where b.casualty_id = w.casualty_id and b.keeper = 'centre'
         order by b.since desc limit 1) l on true
     where w.until is null and w.keeper = 'nobody' and k.outcome = 'released' and w.since >= ${since}::timestamptz
       and not exists (select from release_animal a where a.casualty_id = w.casualty_id and a.state = 'gone')
       and ${ofCentres(grant, Prisma.sql`l.centre_id`)}`
  return rows[0]?.animals ?? 0
}

export type NewRelease = {
  readonly at: Date
  readonly site: string
  readonly latitude: number | null
  readonly longitude: number | null
  readonly way: ReleaseWay
  readonly releaser: string
}

/** Plans a release of these animals. */
export async function createRelease(
  { tx }: EntryTx,
  release: NewRelease,
  casualtyIds: readonly number[],
): Promise<number> {
  const { id } = await tx.release.create({ data: { ...release }, select: { id: true } })
  await tx.releaseAnimal.createMany({ data: casualtyIds.map(casualtyId => ({ releaseId: id, casualtyId })) })
  return id
}

/** The animals of a planned release, locked. Failure 'conflict' when it is planned no more. */
export async function lockRelease({ tx }: EntryTx, releaseId: number): Promise<readonly number[]> {
  const rows = await tx.$queryRaw<{ casualtyId: number }[]>`
    select a.casualty_id as "casualtyId" from release r join release_animal a on a.release_id = r.id
     where r.id = ${releaseId}::int and r.state = 'planned' and a.state = 'planned'
       and exists (select from whereabouts w where w.casualty_id = a.casualty_id and w.until is null and w.keeper <> 'nobody')
     order by 1 for update of r`
  if (rows.length === 0) throw new Failure('conflict', { rule: 'release-over' })
  return rows.map(({ casualtyId }) => casualtyId)
}

/** The animals of a planned release. Failure 'not-found' without it. */
export async function listAnimalsOfRelease(
  _grant: Grant<'system.run'>,
  releaseId: number,
): Promise<readonly number[]> {
  const rows = await db().releaseAnimal.findMany({ where: { releaseId }, orderBy: { casualtyId: 'asc' } })
  if (rows.length === 0) throw new Failure('not-found')
  return rows.map(({ casualtyId }) => casualtyId)
}

export type Gone = { readonly casualtyId: number; readonly keepingId: number; readonly ring: string }

/** Who went by which fact, who stayed, and by whom it was done. */
export async function finishRelease(
  { tx }: EntryTx,
  releaseId: number,
  done: { readonly at: Date; readonly releaser: string; readonly gone: readonly Gone[] },
): Promise<void> {
  for (const { casualtyId, keepingId, ring } of done.gone) {
    await tx.releaseAnimal.update({
      where: { releaseId_casualtyId: { releaseId, casualtyId } },
      data: { state: 'gone', keepingId, ring: ring === '' ? null : ring },
    })
  }
  await tx.releaseAnimal.updateMany({ where: { releaseId, state: 'planned' }, data: { state: 'stayed' } })
  await tx.release.update({
    where: { id: releaseId },
    data: { state: 'done', at: done.at, releaser: done.releaser },
  })
}

/** Nobody went. */
export async function callOffRelease({ tx }: EntryTx, releaseId: number): Promise<void> {
  await tx.releaseAnimal.updateMany({ where: { releaseId, state: 'planned' }, data: { state: 'stayed' } })
  await tx.release.update({ where: { id: releaseId }, data: { state: 'called-off' } })
}

/** What stood against a release that happened, in the words it was refused with. */
export async function recordAgainst(
  { tx }: EntryTx,
  keepingId: number,
  against: readonly { readonly rule: Bar['rule']; readonly what: string }[],
): Promise<void> {
  await tx.releaseAgainst.createMany({
    data: against.map(one => ({ ...one, keepingId })),
    skipDuplicates: true,
  })
}

/** What an animal waits for. */
export async function recordWaits(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  at: Date,
  waitsFor: readonly WaitsFor[],
): Promise<void> {
  await tx.releaseWait.create({ data: { entryId, casualtyId, at, waitsFor: [...new Set(waitsFor)] } })
}

export type ReleasedAs = {
  readonly site: string
  readonly latitude: number | null
  readonly longitude: number | null
  readonly way: ReleaseWay
  readonly releaser: string
  readonly ring: string | null
}

/** How the fact that ended a case came about, what stood against it, and what it waits for while it is here. */
export async function getReleaseOf(
  _grant: Reads,
  casualtyId: number,
  keepingId: number,
): Promise<{
  readonly released: ReleasedAs | null
  readonly against: readonly string[]
  readonly waitsFor: readonly WaitsFor[]
  /** When it is planned to go. */
  readonly plannedAt: Date | null
}> {
  const [animal, against, wait, planned] = await Promise.all([
    db().releaseAnimal.findFirst({ where: { casualtyId, keepingId }, include: { release: true } }),
    db().releaseAgainst.findMany({ where: { keepingId }, orderBy: { what: 'asc' } }),
    db().releaseWait.findFirst({ where: { casualtyId }, orderBy: { id: 'desc' } }),
    db().releaseAnimal.findFirst({
      where: { casualtyId, state: 'planned', release: { state: 'planned' } },
      select: { release: { select: { at: true } } },
    }),
  ])
  return {
    released:
      animal === null
        ? null
        : {
            site: animal.release.site,
            latitude: animal.release.latitude,
            longitude: animal.release.longitude,
            way: z.enum(RELEASE_WAYS).parse(animal.release.way),
            releaser: animal.release.releaser,
            ring: animal.ring,
          },
    against: against.map(({ what }) => what),
    waitsFor: waits.parse(wait?.waitsFor ?? []),
    plannedAt: planned?.release.at ?? null,
  }
}
