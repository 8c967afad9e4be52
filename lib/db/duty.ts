/**
 * What a person owes by name: open and parked calls, promised call-backs, the line.
 * Promise: passing on moves all of it in the caller's transaction and names what moved; who opened a call and who held
 * the line before stays written.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { type Db, db } from './client.ts'
import type { EntryTx } from './entry.ts'
import { endTurn, insertTurn, isHolder, lockTurn } from './line.ts'

const MS_PER_HOUR = 3_600_000

type Passes = Grant<'line.hold' | 'people.change'>

export type Duties = {
  readonly calls: number
  readonly callBacks: number
  readonly isOnTheLine: boolean
}

const callsOf = (personId: number) =>
  Prisma.sql`state <> 'closed' and coalesce(owner_id, opened_by) = ${personId}::int`

/** How much a person owes now; what has to be passed on before she leaves. */
export async function countDuties(
  _grant: Grant<'people.read' | 'people.change'>,
  personId: number,
  on: Db = db(),
): Promise<Duties> {
  const [found] = await on.$queryRaw<Duties[]>`
    select (select count(*)::int from call where ${callsOf(personId)}) as calls,
           (select count(*)::int from call_back where owner_id = ${personId}::int and done_at is null) as "callBacks",
           exists (select from line_turn where holder_id = ${personId}::int and ended_at is null) as "isOnTheLine"`
  return found ?? { calls: 0, callBacks: 0, isOnTheLine: false }
}

/**
 * Passes everything a person owes to another, the line included when she holds it. Gives what moved, as kind:id.
 * Failure 'duties-need-a-coordinator' when the other can not hold it.
 */
export async function passOnDuties(
  grant: Passes,
  entry: Pick<EntryTx, 'tx'>,
  fromPersonId: number,
  toPersonId: number,
  at: Date,
): Promise<string[]> {
  if (!(await isHolder(entry, toPersonId))) throw new Failure('rule', { rule: 'duties-need-a-coordinator' })
  const turn = await turnHeldBy(grant, entry, fromPersonId)
  const moved = await passOwned(entry.tx, fromPersonId, toPersonId)
  const keys = turn === undefined ? moved : [`line:${turn.id}`, ...moved]
  await entry.tx.lineOffer.updateMany({
    where: { state: 'open', toId: fromPersonId },
    data: { state: 'withdrawn', settledAt: at },
  })
  if (turn !== undefined) {
    await endTurn(entry, turn.id, 'overtaken', at)
    await insertTurn(entry, {
      holderId: toPersonId,
      takenAt: at,
      untilAt: turn.untilAt > at ? turn.untilAt : new Date(at.getTime() + MS_PER_HOUR),
      how: 'passed-on',
      passed: moved,
    })
  }
  return keys
}

/** The calls and call-backs alone: what moves with the line. */
export async function passOwned(tx: Db, fromPersonId: number, toPersonId: number): Promise<string[]> {
  const rows = await tx.$queryRaw<{ key: string }[]>`
    with calls as (
      update call set owner_id = ${toPersonId}::int where ${callsOf(fromPersonId)} returning id
    ), backs as (
      update call_back set owner_id = ${toPersonId}::int
       where owner_id = ${fromPersonId}::int and done_at is null returning id
    )
    select 'call:' || id as key from calls union all select 'call-back:' || id from backs`
  return rows.map(({ key }) => key)
}

async function turnHeldBy(grant: Passes, entry: Pick<EntryTx, 'tx'>, personId: number) {
  const turn = await lockTurn(grant, entry)
  return turn?.holderId === personId ? turn : undefined
}
