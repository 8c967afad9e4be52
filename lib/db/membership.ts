/**
 * The lines by which animals are counted together: put together, parted, told apart, taken back. The database writes
 * what holds now from the newest line, and refuses a line that does not begin where the last one ended.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Beside, Earlier } from '#lib/domain/group.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import { type Entered, entered, enteredOf } from './entered.ts'
import type { EntryTx } from './entry.ts'

const KINDS = ['joined', 'parted', 'told-apart', 'taken-back'] as const
export type MembershipKind = (typeof KINDS)[number]

type Counted = Pick<Beside, 'id' | 'batchId' | 'memberNo' | 'toldBy'>
export type Line = {
  readonly of: Counted
  readonly to: Earlier & { readonly toldBy: string | null }
  readonly kind: MembershipKind
  readonly withId?: number | undefined
  readonly supersedes?: number | undefined
}

export async function writeLines({ tx, entryId }: EntryTx, lines: readonly Line[]): Promise<void> {
  await tx.membership.createMany({
    data: lines.map(({ of, to, kind, withId, supersedes }) => ({
      entryId,
      casualtyId: of.id,
      kind,
      withCasualtyId: withId ?? null,
      wasBatchId: of.batchId,
      wasMemberNo: of.memberNo,
      wasToldBy: of.toldBy,
      batchId: to.batchId,
      memberNo: to.memberNo,
      toldBy: to.toldBy,
      supersedes: supersedes ?? null,
    })),
  })
}

/** A new batch; it begins with animals of this arrival. */
export async function createBatch({ tx }: EntryTx, arrivalId: number): Promise<number> {
  return (await tx.batch.create({ data: { arrivalId }, select: { id: true } })).id
}

/** The first number that nobody has or had in a batch: one who left may come back to the old one. */
export async function nextMemberNo({ tx }: EntryTx, batchId: number): Promise<number> {
  const [row] = await tx.$queryRaw<{ next: number }[]>`
    select coalesce(max(no), 0) + 1 as next
      from (select member_no as no from casualty where batch_id = ${batchId}::int
            union all select was_member_no from membership where was_batch_id = ${batchId}::int) given`
  return row?.next ?? 1
}

/** Where each was counted before it was put in, in the order asked; null for whoever was there from the first. */
export async function listEarlier({ tx }: EntryTx, casualtyIds: readonly number[]) {
  const rows = await tx.$queryRaw<(Earlier & { id: number; kind: MembershipKind })[]>`
    select distinct on (casualty_id) casualty_id as id, kind, was_batch_id as "batchId", was_member_no as "memberNo"
      from membership where casualty_id = any (${casualtyIds}::int[]) and kind <> 'told-apart'
     order by casualty_id, id desc`
  return casualtyIds.map(id => {
    const found = rows.find(row => row.id === id)
    return found?.kind === 'joined' ? { batchId: found.batchId, memberNo: found.memberNo } : null
  })
}

/** The lines of one entry that are still the newest of their animals. Failure where that of this animal is not. */
export async function listStanding({ tx }: EntryTx, casualtyId: number, lineId: number) {
  const asked = await tx.membership.findFirst({
    where: { id: lineId, casualtyId, kind: { not: 'taken-back' } },
    select: { entryId: true },
  })
  if (asked === null) throw new Failure('not-found')
  const rows = await tx.membership.findMany({
    where: { entryId: asked.entryId },
    orderBy: { casualtyId: 'asc' },
  })
  const newest = await tx.membership.groupBy({
    by: ['casualtyId'],
    where: { casualtyId: { in: rows.map(row => row.casualtyId) } },
    _max: { id: true },
  })
  const standing = rows.filter(row => newest.some(({ _max }) => _max.id === row.id))
  if (!standing.some(({ id }) => id === lineId))
    throw new Failure('conflict', { rule: 'group-changed-since' })
  return { entryId: asked.entryId, standing }
}

/** The newest facts of where these animals are, as far as they were recorded in an entry. */
export async function listMovesOf({ tx }: EntryTx, entryId: number, casualtyIds: readonly number[]) {
  return tx.$queryRaw<{ id: number; casualtyId: number }[]>`
    select k.id, k.casualty_id as "casualtyId"
      from keeping k join whereabouts w on w.keeping_id = k.id and w.until is null
     where k.entry_id = ${entryId}::int and k.casualty_id = any (${casualtyIds}::int[])
     order by k.casualty_id`
}

/** How many of these have a place in an enclosure now. */
export async function countPlaced(
  { tx }: EntryTx,
  casualtyIds: readonly number[],
  enclosureId: number,
  at: Date,
) {
  const [row] = await tx.$queryRaw<{ count: number }[]>`
    select count(*)::int as count from claim
     where kind = 'stay' and state = 'live' and enclosure_id = ${enclosureId}::int
       and casualty_id = any (${casualtyIds}::int[])
       and starts_at <= ${at}::timestamptz and (ends_at is null or ends_at > ${at}::timestamptz)`
  return row?.count ?? 0
}

export type MembershipRow = {
  readonly id: number
  readonly entryId: number
  readonly kind: MembershipKind
  readonly withReference: string | null
  readonly animals: number
  readonly toldBy: string | null
  readonly isTakenBack: boolean
  readonly entered: Entered
}

/** How an animal was counted with others, the first line first. */
export async function listMemberships(
  _grant: Grant<'casualty.read'>,
  casualtyId: number,
): Promise<MembershipRow[]> {
  const rows = await db().membership.findMany({
    where: { casualtyId },
    orderBy: { id: 'asc' },
    include: {
      withCasualty: { select: { reference: true } },
      membershipBySupersedes: { select: { id: true } },
      entry: { select: { ...entered.select, _count: { select: { membershipByEntryId: true } } } },
    },
  })
  return rows.map(({ id, entryId, kind, withCasualty, toldBy, membershipBySupersedes, entry }) => ({
    id,
    entryId,
    kind: KINDS.find(known => known === kind) ?? 'joined',
    withReference: withCasualty?.reference ?? null,
    animals: entry._count.membershipByEntryId,
    toldBy,
    isTakenBack: membershipBySupersedes !== null,
    entered: enteredOf(entry),
  }))
}
