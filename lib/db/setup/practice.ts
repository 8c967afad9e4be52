/**
 * Partner practices with hours, night cover and what they see.
 * Promise: hours and groups are replaced as a whole with the version they were read at. Writes run inside an entry.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Practice } from '#lib/domain/practice.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type PracticeDetail = Practice & {
  readonly id: number
  readonly isActive: boolean
  readonly version: number
}

const included = {
  practiceHoursByPracticeId: {
    select: { weekday: true, opensMinute: true, closesMinute: true },
    orderBy: [{ weekday: 'asc' as const }, { opensMinute: 'asc' as const }],
  },
  practiceSeesByPracticeId: { select: { groupSlug: true }, orderBy: { groupSlug: 'asc' as const } },
}

export async function listPractices(_grant: Grant<'setup.read'>): Promise<PracticeDetail[]> {
  const rows = await db().practice.findMany({
    include: included,
    orderBy: [{ isActive: 'desc' }, { name: 'asc' }],
  })
  return rows.map(practiceOf)
}

export async function getPracticeDetail(_grant: Grant<'setup.read'>, id: number): Promise<PracticeDetail> {
  const row = await db().practice.findUnique({ where: { id }, include: included })
  if (row === null) throw new Failure('not-found')
  return practiceOf(row)
}

export async function insertPractice(entry: EntryTx, practice: Practice): Promise<number> {
  const { id } = await entry.tx.practice.create({ data: columnsOf(practice), select: { id: true } })
  await writeLists(entry, id, practice)
  return id
}

export async function updatePractice(
  entry: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  practice: Practice,
): Promise<void> {
  const written = await entry.tx.practice.updateMany({
    where: { id, version },
    data: { ...columnsOf(practice), version: { increment: 1 } },
  })
  await refuseStale(written, () => entry.tx.practice.findUnique({ where: { id }, select: { version: true } }))
  await entry.tx.practiceHours.deleteMany({ where: { practiceId: id } })
  await entry.tx.practiceSees.deleteMany({ where: { practiceId: id } })
  await writeLists(entry, id, practice)
}

export async function updatePracticeSwitch(
  { tx }: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  isActive: boolean,
): Promise<void> {
  const written = await tx.practice.updateMany({
    where: { id, version },
    data: { isActive, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.practice.findUnique({ where: { id }, select: { version: true } }))
}

async function writeLists({ tx }: EntryTx, practiceId: number, practice: Practice): Promise<void> {
  await tx.practiceHours.createMany({ data: practice.hours.map(one => ({ ...one, practiceId })) })
  await tx.practiceSees.createMany({ data: practice.sees.map(groupSlug => ({ practiceId, groupSlug })) })
}

function columnsOf(practice: Practice) {
  const { hours: _hours, sees: _sees, ...columns } = practice
  return columns
}

type Row = Omit<PracticeDetail, 'hours' | 'sees'> & {
  readonly practiceHoursByPracticeId: PracticeDetail['hours']
  readonly practiceSeesByPracticeId: readonly { readonly groupSlug: string }[]
}

function practiceOf({ practiceHoursByPracticeId, practiceSeesByPracticeId, ...row }: Row): PracticeDetail {
  return {
    ...row,
    hours: practiceHoursByPracticeId,
    sees: practiceSeesByPracticeId.map(one => one.groupSlug),
  }
}
