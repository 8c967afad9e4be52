/**
 * Which calls are about the same animal, as people decided.
 * Promise: nothing is overwritten: the newest decision of a pair stands. A call that was closed only because of the
 * other one is opened again when they are told apart.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type Call, callOf, selected } from './call.ts'
import { type Db, db } from './client.ts'

export type CallPair = {
  readonly firstId: number
  readonly secondId: number
  readonly isSame: boolean
  readonly at: Date
  readonly by: string | null
}

/** Calls taken from one instant to another, the oldest first. */
export async function listCallsBetween(_grant: Grant<'call.read'>, from: Date, to: Date): Promise<Call[]> {
  const rows = await db().call.findMany({
    where: { openedAt: { gte: from, lte: to } },
    select: selected,
    orderBy: [{ openedAt: 'asc' }, { id: 'asc' }],
  })
  return rows.map(callOf)
}

/** Calls by their numbers, the oldest first. */
export async function listCallsById(_grant: Grant<'call.read'>, ids: readonly number[]): Promise<Call[]> {
  const rows = await db().call.findMany({
    where: { id: { in: [...ids] } },
    select: selected,
    orderBy: [{ openedAt: 'asc' }, { id: 'asc' }],
  })
  return rows.map(callOf)
}

/** What stands between calls and any other, newest decision of each pair; of calls reached through others too. */
export async function listCallPairs(
  _grant: Grant<'call.read'>,
  callIds: readonly number[],
): Promise<CallPair[]> {
  return db().$queryRaw<CallPair[]>`
    with reached as (select distinct same_calls(id) as id from unnest(${[...callIds]}::int[]) id)
    select distinct on (p.first_id, p.second_id)
           p.first_id as "firstId", p.second_id as "secondId", p.is_same as "isSame", p.at, person.name as by
      from call_pair p left join person on person.id = p.decided_by
     where p.first_id in (select id from reached) or p.second_id in (select id from reached)
     order by p.first_id, p.second_id, p.id desc`
}

/** The call among those about the same animal that was answered; undefined while none was. */
export async function findAnsweredCall(
  _grant: Grant<'call.read'>,
  callId: number,
): Promise<number | undefined> {
  const [found] = await db().$queryRaw<{ id: number }[]>`
    select call_id as id from decision where call_id in (select same_calls(${callId}::int))
     order by call_id = ${callId}::int desc, id desc limit 1`
  return found?.id
}

/** Decides about two calls, and closes or opens the one that was answered only through the other. */
export async function decidePair(
  grant: Grant<'call.take'>,
  {
    a,
    b,
    isSame,
    at,
  }: { readonly a: number; readonly b: number; readonly isSame: boolean; readonly at: Date },
): Promise<void> {
  await db().$transaction(async tx => {
    await tx.callPair.create({
      data: {
        at,
        decidedBy: grant.actor.personId,
        firstId: Math.min(a, b),
        secondId: Math.max(a, b),
        isSame,
      },
    })
    if (isSame) await closeAnswered(tx, a, at)
    else
      await tx.$executeRaw`
      update call set state = 'open', closed_at = null, version = version + 1
       where state = 'closed' and id in (select same_calls(${a}::int) union select same_calls(${b}::int))
         and not exists (select from decision own where own.call_id = call.id)
         -- Closed at the very instant of another's answer, or of being put together with it: through it alone.
         and (exists (select from decision d where d.at = call.closed_at)
              or exists (select from call_pair p where p.at = call.closed_at and p.is_same
                            and call.id in (p.first_id, p.second_id)))
         and not exists (
           select from decision d join call answered on answered.id = d.call_id and answered.state = 'closed'
            where d.call_id in (select same_calls(call.id)))`
  })
}

/** Closes the calls about the same animal as one that was answered and closed. */
export async function closeAnswered(tx: Db, callId: number, at: Date): Promise<void> {
  await tx.$executeRaw`
    update call set state = 'closed', closed_at = ${at}::timestamptz, parked_at = null, parked_by = null,
           version = version + 1
     where state <> 'closed' and id in (select same_calls(${callId}::int))
       and exists (
         select from call answered join decision d on d.call_id = answered.id
          where answered.state = 'closed' and answered.id in (select same_calls(${callId}::int)))`
}
