/**
 * A year's usual arrivals by centre and group.
 * Promise: one line a centre and group; a number that is nought stands as nought, since nothing is deleted. Writes run
 * inside an entry and over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { YearArrivals } from '#lib/domain/arrivals.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type ArrivalsDetail = YearArrivals & {
  readonly centre: string
  readonly groupName: string
  readonly version: number
}
export type ArrivalsKey = { readonly centreId: number; readonly group: string }

const included = { centre: { select: { name: true } }, group: { select: { name: true } } } as const

export async function listArrivals(_grant: Grant<'setup.read'>): Promise<ArrivalsDetail[]> {
  const rows = await db().yearArrivals.findMany({
    include: included,
    orderBy: [{ centre: { name: 'asc' } }, { animalsPerYear: 'desc' }, { groupSlug: 'asc' }],
  })
  return rows.map(arrivalsOf)
}

export async function getArrivals(
  _grant: Grant<'setup.read'>,
  { centreId, group }: ArrivalsKey,
): Promise<ArrivalsDetail> {
  const row = await db().yearArrivals.findUnique({
    where: { centreId_groupSlug: { centreId, groupSlug: group } },
    include: included,
  })
  if (row === null) throw new Failure('not-found')
  return arrivalsOf(row)
}

/** A line that is there already is a conflict: it would be changed unseen. */
export async function insertArrivals({ tx }: EntryTx, arrivals: YearArrivals): Promise<void> {
  const { centreId, group, ...figures } = arrivals
  const made = await tx.yearArrivals.createMany({
    data: [{ centreId, groupSlug: group, ...figures }],
    skipDuplicates: true,
  })
  if (made.count === 0) throw new Failure('rule', { rule: 'arrivals-there-already', field: 'group' })
}

export async function updateArrivals(
  { tx }: EntryTx,
  { centreId, group, version }: ArrivalsKey & { readonly version: number },
  figures: Omit<YearArrivals, 'centreId' | 'group'>,
): Promise<void> {
  const written = await tx.yearArrivals.updateMany({
    where: { centreId, groupSlug: group, version },
    data: { ...figures, version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    tx.yearArrivals.findUnique({
      where: { centreId_groupSlug: { centreId, groupSlug: group } },
      select: { version: true },
    }),
  )
}

type Row = Omit<ArrivalsDetail, 'centre' | 'group' | 'groupName'> & {
  readonly groupSlug: string
  readonly centre: { readonly name: string }
  readonly group: { readonly name: string }
}

function arrivalsOf({ centre, group, groupSlug, ...row }: Row): ArrivalsDetail {
  return { ...row, group: groupSlug, centre: centre.name, groupName: group.name }
}
