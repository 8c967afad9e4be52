/**
 * Seasons of species in setup. Promise: a season keeps its species and kind; writes run inside an entry and over the
 * version that was read; none is deleted.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { SeasonTyped } from '#lib/domain/season-form.ts'
import { type SEASON_KINDS, type SpeciesSeason, speciesSeason } from '#lib/domain/season-gate.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type SeasonKey = { readonly species: string; readonly kind: (typeof SEASON_KINDS)[number] }
export type SeasonRow = SpeciesSeason &
  SeasonKey & { readonly name: string; readonly isActive: boolean; readonly version: number }

const included = { species: { select: { commonName: true } } } as const

export async function listSeasonRows(_grant: Grant<'setup.read'>): Promise<SeasonRow[]> {
  const rows = await db().speciesSeason.findMany({
    include: included,
    orderBy: [{ isActive: 'desc' }, { kind: 'desc' }, { species: { commonName: 'asc' } }],
  })
  return rows.map(rowOf)
}

export async function getSeasonRow(_grant: Grant<'setup.read'>, at: SeasonKey): Promise<SeasonRow> {
  const row = await db().speciesSeason.findUnique({ where: keyed(at), include: included })
  if (row === null) throw new Failure('not-found')
  return rowOf(row)
}

/** Species by name, to choose from. */
export async function listSpeciesChoices(
  _grant: Grant,
): Promise<{ readonly slug: string; readonly commonName: string }[]> {
  return db().species.findMany({
    where: { isActive: true },
    select: { slug: true, commonName: true },
    orderBy: { commonName: 'asc' },
  })
}

export async function insertSeason(
  { tx }: EntryTx,
  { species, kind }: SeasonKey,
  season: SeasonTyped,
): Promise<void> {
  if ((await tx.species.count({ where: { slug: species, isActive: true } })) === 0)
    throw new Failure('not-found')
  const made = await tx.speciesSeason.createMany({
    data: [{ speciesSlug: species, kind, ...season }],
    skipDuplicates: true,
  })
  if (made.count === 0) throw new Failure('rule', { rule: 'season-there-already', field: 'kind' })
}

export async function updateSeason(
  { tx }: EntryTx,
  { species, kind, version }: SeasonKey & { readonly version: number },
  change: SeasonTyped | { readonly isActive: boolean },
): Promise<void> {
  const written = await tx.speciesSeason.updateMany({
    where: { speciesSlug: species, kind, version },
    data: { ...change, version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    tx.speciesSeason.findUnique({ where: keyed({ species, kind }), select: { version: true } }),
  )
}

const keyed = ({ species, kind }: SeasonKey) => ({ speciesSlug_kind: { speciesSlug: species, kind } })

type Row = {
  readonly speciesSlug: string
  readonly isActive: boolean
  readonly version: number
  readonly species: { readonly commonName: string }
}

function rowOf({ speciesSlug, isActive, version, species, ...row }: Row): SeasonRow {
  return { ...speciesSeason.parse(row), species: speciesSlug, name: species.commonName, isActive, version }
}
