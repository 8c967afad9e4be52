/**
 * Due times, claimed a few at a time so that several processes can share the work.
 * Promise: each is claimed once (skip locked, guarded by its state), with its audit row in the same statement.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'

/** How many are claimed at once: a claim holds their locks until it is done. */
export const CLAIM_COUNT_MAX = 20

type Counted = readonly [{ readonly count: number }]

/** Holds whose time ran out: their places are free again. How many there were, at most `CLAIM_COUNT_MAX`. */
export async function expireDueHolds(_grant: Grant<'system.run'>, at: Date): Promise<number> {
  const [{ count }] = await db().$queryRaw<Counted>`select expire_due_holds(${at}::timestamptz)::int as count`
  return count
}

/** Asks that nobody answered in time. How many there were, at most `CLAIM_COUNT_MAX`. */
export async function lapseDueAsks(grant: Grant<'system.run'>, at: Date): Promise<number> {
  const [{ count }] = await db().$queryRaw<Counted>`
    with due as (
      select id from ask where state = 'put' and lapses_at <= ${at}::timestamptz
      order by lapses_at, id for update skip locked limit ${CLAIM_COUNT_MAX}
    ), lapsed as (
      update ask set state = 'unanswered' from due where ask.id = due.id and ask.state = 'put' returning ask.id
    ), noted as (
      insert into audit (at, actor_words, action, subject, subject_id, columns)
      select ${at}::timestamptz, ${actorWords(grant)}, 'ask.lapse', 'ask', id::text, '{state}' from lapsed
      returning id
    )
    select count(*)::int as count from noted`
  return count
}

function actorWords({ actor }: Grant): string {
  return actor.kind === 'system' ? actor.reason : actor.name
}
