/**
 * Operations and what they left in an animal.
 * Promise: append-only; an operation that was taken back takes its implants with it. Writes run inside an entry
 * (entry.ts), after the casualty's lock.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import type { Occurred, Span } from '#lib/domain/precision.ts'
import { IMPLANTS, type ImplantKind, type ImplantState, SIDES, type Side } from '#lib/domain/surgery.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import { type Entered, entered, enteredOf, occurredRow, spanOfRow } from './entered.ts'
import type { EntryTx } from './entry.ts'

/** An operation with what was left in. */
export async function createSurgery(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  {
    implants,
    side,
    what,
    ...when
  }: {
    readonly side: Side
    readonly what: string
    readonly implants: readonly ImplantKind[]
  } & Occurred,
): Promise<number> {
  const { id } = await tx.surgery.create({
    data: { side, what, ...occurredRow(when), entryId, casualtyId },
    select: { id: true },
  })
  await tx.implant.createMany({ data: implants.map(kind => ({ surgeryId: id, kind })) })
  return id
}

/** Takes an operation back that never was. */
export async function voidSurgery(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  surgeryId: number,
): Promise<void> {
  const found = await tx.surgery.findFirst({ where: { id: surgeryId, casualtyId, isVoid: false } })
  if (found === null) throw new Failure('not-found')
  const { at, side, what } = found
  await tx.surgery.create({
    data: { entryId, casualtyId, at, side, what, isVoid: true, supersedes: surgeryId },
  })
}

/** What became of the implants of these kinds that are still in place; how many there were. */
export async function settleImplants(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  settled: {
    readonly kinds: readonly ImplantKind[]
    readonly how: 'out' | 'signed to stay'
    readonly at: Date
    readonly signedBy: string | null
  },
): Promise<number> {
  const { kinds, how, at, signedBy } = settled
  return tx.$executeRaw`
    insert into implant_fact (entry_id, implant_id, at, how, signed_by)
    select ${entryId}::int, id, ${at}::timestamptz, ${how}::text,
           case when ${how}::text = 'signed to stay' then ${signedBy}::text end
      from implant_now where casualty_id = ${casualtyId}::int and kind = any (${[...kinds]}::text[])
       and (state = 'in place' or state = 'signed to stay' and ${how}::text = 'out')
     order by id`
}

export type SurgeryRow = {
  readonly id: number
  readonly at: Date
  readonly within: Span | null
  readonly side: Side
  readonly what: string
  readonly isTakenBack: boolean
  readonly entered: Entered
}

/** Every operation, the first first; those taken back among them. */
export async function listSurgeries(
  _grant: Grant<'casualty.read'>,
  casualtyId: number,
): Promise<SurgeryRow[]> {
  const rows = await db().surgery.findMany({
    where: { casualtyId, isVoid: false },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    include: { surgeryBySupersedes: { select: { id: true } }, entry: entered },
  })
  return rows.map(row => ({
    id: row.id,
    at: row.at,
    within: spanOfRow(row.atEarliest, row.atLatest),
    side: z.enum(SIDES).parse(row.side),
    what: row.what,
    isTakenBack: row.surgeryBySupersedes !== null,
    entered: enteredOf(row.entry),
  }))
}

export type ImplantRow = {
  readonly id: number
  readonly surgeryId: number
  readonly kind: ImplantKind
  readonly state: ImplantState
  readonly signedBy: string | null
}

const implantRow = z.object({
  id: z.number(),
  surgeryId: z.number(),
  kind: z.enum(IMPLANTS),
  state: z.enum(['in place', 'out', 'signed to stay']),
  signedBy: z.string().nullable(),
})

/** Implants of the operations that stand, each as it is now. */
export async function listImplants(
  _grant: Grant<'casualty.read'>,
  casualtyId: number,
): Promise<ImplantRow[]> {
  const rows = await db().$queryRaw<unknown[]>`
    select id, surgery_id as "surgeryId", kind, state, signed_by as "signedBy"
      from implant_now where casualty_id = ${casualtyId}::int order by id`
  return rows.map(row => implantRow.parse(row))
}
