/**
 * Calls: taking one, keeping what is typed, parking it, ringing back.
 * Promise: the sheet is kept as typed, version by version; every list is what the actor may see.
 */

import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand, may } from '#lib/authz/demand.ts'
import {
  type Call,
  type CallBack,
  createCall,
  getCall,
  listCallBacks,
  listClosedCalls,
  listOpenCalls,
  listRungBack,
  markCalledBack,
  parkCall,
  type RungBack,
  saveFacts,
} from '#lib/db/call.ts'
import { listCallPairs } from '#lib/db/call-pair.ts'
import { listNames, listOnTheLine } from '#lib/db/person.ts'
import { type CallFacts, callFacts } from '#lib/domain/call-facts.ts'
import { mergeSheets, readSheet, type SheetInput } from '#lib/domain/call-sheet.ts'
import { parse } from '#lib/domain/parse.ts'
import { groupsOfSame } from '#lib/domain/same-animal.ts'
import { Failure, isFailure } from '#lib/kernel/failure.ts'
import { readTrade } from './network.ts'

const CLOSED_SHOWN = 12
const SAVE_TRIES = 5
const CALL_BACK_WORDS_MAX = 200
const CALL_BACK_MINUTES_MAX = 2 * 24 * 60
const MS_PER_MINUTE = 60_000

const SAID_MAX = 500

export type CallDesk = {
  /** Those that wait, the oldest first; calls about the same animal stand together. */
  readonly open: readonly WaitingCall[]
  readonly closed: readonly Call[]
  readonly callBacks: readonly CallBack[]
}

/** A call that waits, and the call before it in the list when both are about the same animal. */
export type WaitingCall = Call & { readonly sameAs: number | null }

export type OnTheLine = { readonly id: number; readonly name: string }

/** Opens an empty call and gives its number. */
export async function openCall(actor: Actor, now: Date): Promise<number> {
  return createCall(demand(actor, 'call.take'), now)
}

/** One call as it stands. A manager sees it without the finder's name and number. */
export async function readCall(actor: Actor, id: number): Promise<Call> {
  const call = await getCall(demand(actor, 'call.read'), id)
  if (may(actor, 'finder.read')) return call
  return { ...call, facts: { ...call.facts, finderName: '', finderPhone: '' } }
}

/** Open, parked and lately closed calls, and the call-backs promised. */
export async function readCallDesk(actor: Actor): Promise<CallDesk> {
  const grant = demand(actor, 'call.read')
  const [open, closed, callBacks] = await Promise.all([
    listOpenCalls(grant),
    listClosedCalls(grant, CLOSED_SHOWN),
    listCallBacks(grant),
  ])
  const pairs = await listCallPairs(
    grant,
    open.map(({ id }) => id),
  )
  return { open: groupsOfSame(open, pairs).flatMap(together), closed, callBacks }
}

function together(calls: readonly Call[]): WaitingCall[] {
  return calls.map((call, at) => ({
    ...call,
    sameAs: calls[at - 1] === undefined ? null : (calls[0]?.id ?? null),
  }))
}

/** Who else may ring back, and what was said by those who did. */
export async function readCallBacks(
  actor: Actor,
  callId: number,
): Promise<{ readonly onTheLine: readonly OnTheLine[]; readonly rung: readonly RungBack[] }> {
  const grant = demand(actor, 'call.read')
  const [onTheLine, rung] = await Promise.all([listOnTheLine(grant), listRungBack(grant, callId)])
  return { onTheLine, rung }
}

/** Who wrote each field of a sheet last, by name. */
export async function namesOfWriters(
  actor: Actor,
  { changedBy }: Pick<Call, 'changedBy'>,
): Promise<Readonly<Record<string, string>>> {
  const names = await listNames(demand(actor, 'call.read'), Object.values(changedBy))
  return Object.fromEntries(
    Object.entries(changedBy).flatMap(([field, id]) => {
      const name = names.get(id)
      return name === undefined || id === actor.personId ? [] : [[field, name]]
    }),
  )
}

/**
 * Keeps a sheet as typed. `base` is what the typist saw: a field she left alone keeps what somebody else wrote
 * meanwhile. Gives the facts as they now stand, and their version.
 */
export async function saveSheet(
  actor: Actor,
  id: number,
  base: unknown,
  input: SheetInput,
  now: Date,
): Promise<{ readonly facts: CallFacts; readonly version: number }> {
  const grant = demand(actor, 'call.take')
  const trade = await readTrade()
  for (let tries = 0; ; tries++) {
    const call = await getCall(demand(actor, 'call.read'), id)
    const seen = callFacts.safeParse(base).data ?? call.facts
    const facts = mergeSheets(seen, readSheet(input, call.facts, trade, now), call.facts)
    if (JSON.stringify(facts) === JSON.stringify(call.facts)) return { facts, version: call.version }
    try {
      const changedBy = writersOf(call, facts, actor.personId)
      return { facts, version: await saveFacts(grant, id, call.version, { facts, changedBy }) }
    } catch (thrown) {
      // Somebody saved between our reading and our writing: merge with what she wrote.
      if (!isFailure(thrown) || thrown.rule !== 'call-changed-since' || tries >= SAVE_TRIES) throw thrown
    }
  }
}

/** The writer's number beside each field that she changed. */
function writersOf(before: Call, facts: CallFacts, personId: number | null): Call['changedBy'] {
  if (personId === null) return before.changedBy
  const fields = Object.keys(facts) as (keyof CallFacts)[]
  const changed = fields.filter(field => JSON.stringify(facts[field]) !== JSON.stringify(before.facts[field]))
  return { ...before.changedBy, ...Object.fromEntries(changed.map(field => [field, personId])) }
}

/** Puts a call aside. */
export async function setAside(actor: Actor, id: number, now: Date): Promise<void> {
  await parkCall(demand(actor, 'call.take'), id, now)
}

const promised = z.strictObject({
  minutes: z.coerce.number().int().min(1).max(CALL_BACK_MINUTES_MAX),
  what: z.string().trim().min(1).max(CALL_BACK_WORDS_MAX),
  /** Who rings; whoever promises, where nobody is named. */
  ownerId: z.union([z.literal('').transform(() => undefined), z.coerce.number().int().positive()]).optional(),
})

/** Promises to ring back in so many minutes; the person named owns it, else the one who promises. The call is put aside. */
export async function promiseCallBack(
  actor: Actor,
  callId: number,
  input: unknown,
  now: Date,
): Promise<void> {
  const grant = demand(actor, 'call.take')
  const { minutes, what, ownerId = actor.personId } = parse(promised, input)
  if (ownerId === null) return
  if (ownerId !== actor.personId) await requireOnTheLine(actor, ownerId)
  const dueAt = new Date(now.getTime() + minutes * MS_PER_MINUTE)
  await parkCall(grant, callId, now, { callId, dueAt, ownerId, what })
}

async function requireOnTheLine(actor: Actor, personId: number): Promise<void> {
  const all = await listOnTheLine(demand(actor, 'call.read'))
  if (all.some(({ id }) => id === personId)) return
  const field = 'callBackOwner'
  throw new Failure('invalid', { field, problems: [{ field, reason: 'not-listed' }] })
}

const rung = z.object({ said: z.string().trim().max(SAID_MAX).default('') })

/** Records that somebody rang back, and what was said. */
export async function recordCallBack(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'call.take')
  await markCalledBack(grant, id, { at: now, said: parse(rung, input).said })
}
