/**
 * Species. Promise: class comes from the group and side from the company in the same statement; animals in care keep
 * the company that they came with. Writes run inside an entry and over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type SpeciesValues, speciesFields } from '#lib/domain/species-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { civilDate, dateColumn } from './civil-date.ts'
import { refuseStale } from './stale.ts'

export type SpeciesRow = {
  readonly slug: string
  readonly commonName: string
  readonly group: string
  readonly company: string
  readonly licences: number
  readonly reviewedOn: string | null
  readonly isActive: boolean
}
export type SpeciesDetail = SpeciesValues & {
  readonly slug: string
  readonly isActive: boolean
  readonly version: number
}

/** One page of the species, of one group if asked. */
export async function listSpeciesRows(
  _grant: Grant<'setup.read'>,
  asked: { readonly group: string | undefined; readonly skip: number; readonly take: number },
): Promise<{ readonly rows: readonly SpeciesRow[]; readonly total: number }> {
  const where = asked.group === undefined ? {} : { groupSlug: asked.group }
  const [rows, total] = await Promise.all([
    db().species.findMany({
      where,
      skip: asked.skip,
      take: asked.take,
      include: { group: { select: { name: true } } },
      orderBy: [{ isActive: 'desc' }, { commonName: 'asc' }],
    }),
    db().species.count({ where }),
  ])
  return {
    total,
    rows: rows.map(row => ({
      slug: row.slug,
      commonName: row.commonName,
      group: row.group.name,
      company: row.companySlug,
      licences: row.licenceKeys.length,
      reviewedOn: civilDate(row.reviewedOn),
      isActive: row.isActive,
    })),
  }
}

export async function getSpeciesDetail(_grant: Grant<'setup.read'>, slug: string): Promise<SpeciesDetail> {
  const row = await db().species.findUnique({
    where: { slug },
    omit: { class: true, preys: true, mainReasons: true, isStandIn: true },
  })
  if (row === null) throw new Failure('not-found')
  return {
    ...row,
    adultAlone: speciesFields.adultAlone.parse(row.adultAlone),
    reviewedOn: civilDate(row.reviewedOn),
  }
}

export async function insertSpecies(entry: EntryTx, slug: string, species: SpeciesValues): Promise<void> {
  const made = await entry.tx.species.createMany({
    data: [{ slug, ...(await columnsOf(entry, species)) }],
    skipDuplicates: true,
  })
  if (made.count === 0) throw new Failure('rule', { rule: 'species_common_name_once', field: 'commonName' })
}

export async function updateSpecies(
  entry: EntryTx,
  { id, version }: { readonly id: string; readonly version: number },
  species: SpeciesValues,
): Promise<void> {
  const written = await entry.tx.species.updateMany({
    where: { slug: id, version },
    data: { ...(await columnsOf(entry, species)), version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    entry.tx.species.findUnique({ where: { slug: id }, select: { version: true } }),
  )
}

export async function updateSpeciesSwitch(
  { tx }: EntryTx,
  { id, version }: { readonly id: string; readonly version: number },
  isActive: boolean,
): Promise<void> {
  const written = await tx.species.updateMany({
    where: { slug: id, version },
    data: { isActive, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.species.findUnique({ where: { slug: id }, select: { version: true } }))
  if (!isActive) return
  const { groupSlug } = await tx.species.findUniqueOrThrow({
    where: { slug: id },
    select: { groupSlug: true },
  })
  await groupThatIsOn(tx, groupSlug)
}

/** Held until the entry ends, so that nobody switches it off meanwhile. */
async function groupThatIsOn(tx: EntryTx['tx'], slug: string): Promise<{ readonly class: string }> {
  const [group] = await tx.$queryRaw<{ class: string; isActive: boolean }[]>`
    select class, is_active as "isActive" from species_group where slug = ${slug} for share`
  if (group === undefined) throw new Failure('rule', { rule: 'refers_to_what_is_there', field: 'groupSlug' })
  if (!group.isActive) throw new Failure('rule', { rule: 'group-switched-off', field: 'groupSlug' })
  return group
}

async function columnsOf({ tx }: EntryTx, { reviewedOn, ...species }: SpeciesValues) {
  const [group, company] = await Promise.all([
    groupThatIsOn(tx, species.groupSlug),
    tx.company.findUnique({ where: { slug: species.companySlug }, select: { preys: true } }),
  ])
  if (company === null) throw new Failure('rule', { rule: 'refers_to_what_is_there', field: 'companySlug' })
  return { ...species, class: group.class, preys: company.preys, reviewedOn: dateColumn(reviewedOn) }
}
