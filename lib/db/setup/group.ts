/**
 * Groups of species with temperament and usual numbers. Writes run inside an entry and over the version that was read.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { HOUSING_TYPES } from '#lib/domain/housing.ts'
import { type Group, MINUTES_OF } from '#lib/domain/knowledge-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { civilDate, dateColumn } from './civil-date.ts'
import { refuseStale } from './stale.ts'

export type GroupRow = Group & {
  readonly slug: string
  readonly class: string
  readonly species: number
  readonly version: number
}

const minutesColumn = z.partialRecord(z.enum(MINUTES_OF), z.number())
const stockColumn = z.partialRecord(z.enum(HOUSING_TYPES), z.int())
const included = { _count: { select: { speciesByGroupSlug: { where: { isActive: true } } } } } as const
const omitted = { housing: true } as const

export async function listGroupRows(_grant: Grant<'setup.read'>): Promise<GroupRow[]> {
  const rows = await db().speciesGroup.findMany({
    include: included,
    omit: omitted,
    orderBy: [{ class: 'asc' }, { name: 'asc' }],
  })
  return rows.map(groupOf)
}

export async function getGroupRow(_grant: Grant<'setup.read'>, slug: string): Promise<GroupRow> {
  const row = await db().speciesGroup.findUnique({ where: { slug }, include: included, omit: omitted })
  if (row === null) throw new Failure('not-found')
  return groupOf(row)
}

export async function updateGroup(
  { tx }: EntryTx,
  { id, version }: { readonly id: string; readonly version: number },
  { reviewedOn, ...group }: Group,
): Promise<void> {
  const written = await tx.speciesGroup.updateMany({
    where: { slug: id, version },
    data: { ...group, reviewedOn: dateColumn(reviewedOn), version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    tx.speciesGroup.findUnique({ where: { slug: id }, select: { version: true } }),
  )
}

type Row = Omit<GroupRow, 'stock' | 'minutes' | 'reviewedOn' | 'species'> & {
  readonly minutes: unknown
  readonly stock: unknown
  readonly reviewedOn: Date | null
  readonly _count: { readonly speciesByGroupSlug: number }
}

function groupOf({ _count, stock, minutes, reviewedOn, ...row }: Row): GroupRow {
  return {
    ...row,
    stock: stockColumn.parse(stock),
    minutes: minutesColumn.parse(minutes),
    reviewedOn: civilDate(reviewedOn),
    species: _count.speciesByGroupSlug,
  }
}
