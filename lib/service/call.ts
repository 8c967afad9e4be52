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
  createCallBack,
  getCall,
  listCallBacks,
  listClosedCalls,
  listOpenCalls,
  markCalledBack,
  parkCall,
  saveFacts,
} from '#lib/db/call.ts'
import { type CallFacts, callFacts } from '#lib/domain/call-facts.ts'
import { mergeSheets, readSheet, type SheetInput } from '#lib/domain/call-sheet.ts'
import { parse } from '#lib/domain/parse.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { readTrade } from './network.ts'

const CLOSED_SHOWN = 12
const SAVE_TRIES = 5
const CALL_BACK_WORDS_MAX = 200
const CALL_BACK_MINUTES_MAX = 2 * 24 * 60
const MS_PER_MINUTE = 60_000

export type CallDesk = {
  readonly open: readonly Call[]
  readonly closed: readonly Call[]
  readonly callBacks: readonly CallBack[]
}

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
  return { open, closed, callBacks }
}

/**
 * Keeps a sheet as typed. `base` is what the typist saw: a field she left alone keeps what somebody else wrote
 * meanwhile. Gives the facts as they now stand.
 */
export async function saveSheet(
  actor: Actor,
  id: number,
  base: unknown,
  input: SheetInput,
  now: Date,
): Promise<CallFacts> {
  const grant = demand(actor, 'call.take')
  const trade = await readTrade()
  for (let tries = 0; ; tries++) {
    const call = await getCall(demand(actor, 'call.read'), id)
    const seen = callFacts.safeParse(base).data ?? call.facts
    const facts = mergeSheets(seen, readSheet(input, call.facts, trade, now), call.facts)
    if (JSON.stringify(facts) === JSON.stringify(call.facts)) return facts
    try {
      await saveFacts(grant, id, call.version, facts)
      return facts
    } catch (thrown) {
      // Somebody saved between our reading and our writing: merge with what she wrote.
      if (!isFailure(thrown) || thrown.rule !== 'call-changed-since' || tries >= SAVE_TRIES) throw thrown
    }
  }
}

/** Puts a call aside. */
export async function setAside(actor: Actor, id: number): Promise<void> {
  await parkCall(demand(actor, 'call.take'), id)
}

const promised = z.strictObject({
  minutes: z.coerce.number().int().min(1).max(CALL_BACK_MINUTES_MAX),
  what: z.string().trim().min(1).max(CALL_BACK_WORDS_MAX),
})

/** Promises to ring back in so many minutes; the person who promises owns it. The call is put aside. */
export async function promiseCallBack(
  actor: Actor,
  callId: number,
  input: unknown,
  now: Date,
): Promise<void> {
  const grant = demand(actor, 'call.take')
  const { minutes, what } = parse(promised, input)
  if (actor.personId === null) return
  await createCallBack(grant, {
    callId,
    dueAt: new Date(now.getTime() + minutes * MS_PER_MINUTE),
    ownerId: actor.personId,
    what,
  })
  await parkCall(grant, callId)
}

/** Records that somebody rang back. */
export async function recordCallBack(actor: Actor, id: number, now: Date): Promise<void> {
  await markCalledBack(demand(actor, 'call.take'), id, now)
}
