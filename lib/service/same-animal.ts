/**
 * The same animal told of twice: which calls may be meant, which were put together, and deciding so.
 * Promise: both sheets stay as they were typed; a decision is a new entry, so putting together can be taken back.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type Call, getCall } from '#lib/db/call.ts'
import {
  type CallPair,
  decidePair,
  listCallPairs,
  listCallsBetween,
  listCallsById,
} from '#lib/db/call-pair.ts'
import { parse } from '#lib/domain/parse.ts'
import { groupsOfSame, mayBeSame, NEAR_HOURS } from '#lib/domain/same-animal.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { readTrade } from './network.ts'

const MS_PER_HOUR = 3_600_000

export type SameCalls = {
  /** Not decided yet: "same animal?" */
  readonly suspects: readonly Call[]
  /** Decided: the others, each with who said so and when. */
  readonly same: readonly { readonly call: Call; readonly said: CallPair | undefined }[]
}

/** The calls that are, or may be, about the animal of one call. */
export async function readSameCalls(actor: Actor, call: Call): Promise<SameCalls> {
  const grant = demand(actor, 'call.read')
  const near = (hours: number) => new Date(call.openedAt.getTime() + hours * MS_PER_HOUR)
  const isKnown = call.facts.species !== null && call.facts.where !== null
  const [around, pairs, trade] = await Promise.all([
    isKnown ? listCallsBetween(grant, near(-NEAR_HOURS), near(NEAR_HOURS)) : [],
    listCallPairs(grant, [call.id]),
    readTrade(),
  ])
  const reached = [...new Set([call.id, ...pairs.flatMap(({ firstId, secondId }) => [firstId, secondId])])]
  const [mine = []] = groupsOfSame(
    reached.map(id => ({ id })),
    pairs,
  )
  const sameIds = mine.map(({ id }) => id).filter(id => id !== call.id)
  const same = sameIds.length === 0 ? [] : await listCallsById(grant, sameIds)
  return {
    same: same.map(other => ({ call: other, said: pairs.find(pair => pair.isSame && isOf(pair, other.id)) })),
    suspects: around.filter(
      other => !reached.includes(other.id) && mayBeSame(call, other, trade.speciesBySlug),
    ),
  }
}

const deciding = z.object({
  otherId: z.coerce.number().int().positive(),
  isSame: z.enum(['yes', 'no']).transform(answer => answer === 'yes'),
})

/** Decides that a call and another are about the same animal, or that they are not. */
export async function decideSame(actor: Actor, callId: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'call.take')
  const { otherId, isSame } = parse(deciding, input)
  if (otherId === callId) throw new Failure('invalid', { field: 'otherId', rule: 'call_pair_in_order' })
  const reading = demand(actor, 'call.read')
  await Promise.all([getCall(reading, callId), getCall(reading, otherId)])
  await decidePair(grant, { a: callId, b: otherId, isSame, at: now })
}

function isOf({ firstId, secondId }: CallPair, id: number): boolean {
  return firstId === id || secondId === id
}
