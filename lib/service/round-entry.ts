/**
 * A tap on the round, once: what it records, what it takes back, and what waits for a person.
 * Promise: the same key is recorded once, whichever way and however often it comes; whoever had recorded otherwise
 * since the page was drawn loses nothing: both versions stand until somebody looked. Undo is an entry of its own.
 */
import { createHash } from 'node:crypto'
import type { Actor } from '#lib/authz/actor.ts'
import { demand, may } from '#lib/authz/demand.ts'
import { reopenChecks } from '#lib/db/check.ts'
import { writeCounted, writeUncounted } from '#lib/db/closure.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { type KeptAgain, keepAgain, lockForTakingBack } from '#lib/db/hold.ts'
import {
  findEntryOfCheck,
  findKeepingOf,
  findNewestKeeping,
  findRoundEntry,
  getRoundEntry,
  type RoundEntry,
  readSeen,
  settleRoundEntry,
  writeRoundEntry,
} from '#lib/db/round-entry.ts'
import { lockCasualty } from '#lib/db/stage.ts'
import { voidWeights } from '#lib/db/weight.ts'
import { parse } from '#lib/domain/parse.ts'
import { type RoundEntryInput, type RoundSaid, roundEntryInput } from '#lib/domain/round-entry.ts'
import { Failure, isFailure } from '#lib/kernel/failure.ts'
import { type Along, record } from './about-casualty.ts'
import { recordMoved, recordOutcome, recordUndone } from './record.ts'
import { recordCheck, recordStageMoved, recordStageTakenBack, recordWeight } from './record-stay.ts'

/** What became of a tap; `isRepeat` when it was there already. */
export type Entered = { readonly entry: RoundEntry; readonly isRepeat: boolean }

type Tap = RoundEntryInput & { readonly happenedAt: Date }

const AGAIN = 'entry_device_key_once'
/** Somebody recorded otherwise meanwhile. */
const OTHERWISE: readonly string[] = ['seen-otherwise', 'check-done-already']

/** Records one tap. Failure 'invalid' for what cannot be read; what collides is kept and waits. */
export async function enterOnRound(actor: Actor, input: unknown, now: Date): Promise<Entered> {
  demand(actor, 'casualty.record')
  const read = parse(roundEntryInput, input)
  const grant = demand(actor, 'casualty.record', { centreIds: [read.centreId] })
  const tap = { ...read, key: keyOf(read), happenedAt: new Date(now.getTime() - read.agoMs) }
  const known = await findRoundEntry(grant, tap.key)
  if (known !== undefined) return { entry: known, isRepeat: true }
  const isRepeat = await enter(actor, tap, now)
  const entry = await findRoundEntry(grant, tap.key)
  if (entry === undefined) throw new Failure('conflict')
  return { entry, isRepeat }
}

/** A page sends one key with each of its buttons, so what was said belongs to the key. */
function keyOf({ key, centreId, casualtyId, said }: RoundEntryInput): string {
  return createHash('sha256')
    .update(JSON.stringify([key, centreId, casualtyId, said]))
    .digest('hex')
}

/** Whether it turned out to be there already: two of the same may be on their way at once. */
async function enter(actor: Actor, tap: Tap, now: Date): Promise<boolean> {
  try {
    await apply(actor, tap, now)
    return false
  } catch (thrown) {
    if (!isFailure(thrown)) throw thrown
    if (thrown.rule === AGAIN) return true
    if (!OTHERWISE.includes(thrown.rule ?? '')) throw thrown
  }
  const grant = demand(actor, 'casualty.record', { centreIds: [tap.centreId] })
  const about = { now, action: 'round entry waits', subject: 'casualty', subjectId: tap.casualtyId ?? 0 }
  try {
    await inEntry(grant, { ...about, deviceKey: tap.key }, async entry => {
      await writeRoundEntry(entry, { ...tap, state: 'waits' })
    })
  } catch (thrown) {
    if (isFailure(thrown) && thrown.rule === AGAIN) return true
    throw thrown
  }
  return false
}

function apply(actor: Actor, tap: Tap, now: Date): Promise<unknown> {
  const { said, centreId, casualtyId = 0, key } = tap
  if (said.kind === 'undo') return takeBack(actor, { ...tap, said }, said.entryId, now)
  if (said.kind !== 'counted') return say(actor, { ...tap, said, casualtyId }, now, aroundTap(tap, key))
  const grant = demand(actor, 'casualty.record', { centreIds: [centreId] })
  const about = { now, action: 'counted', subject: 'centre', subjectId: centreId, columns: ['counted_at'] }
  return inEntry(grant, { ...about, deviceKey: key }, async entry => {
    const before = await writeCounted(entry, centreId, tap.happenedAt)
    const kept = { kind: 'counted' as const, before: before?.toISOString() ?? null }
    await writeRoundEntry(entry, { ...tap, said: kept, state: 'stands' })
  })
}

/** Looks whether the animal is as the page showed it, records, and writes down what was tapped. */
function aroundTap(tap: Tap, deviceKey: string): Along {
  const { said, seen, casualtyId = 0 } = tap
  return {
    deviceKey,
    around: async (entry, work) => {
      await lockCasualty(entry, casualtyId)
      await requireAsSeen(entry, casualtyId, said, seen)
      const made = await work()
      await writeRoundEntry(entry, { ...tap, state: 'stands' })
      return made
    },
  }
}

async function requireAsSeen(
  entry: EntryTx,
  casualtyId: number,
  said: RoundSaid,
  seen: Tap['seen'],
): Promise<void> {
  const { keepingId, stageNo } = await readSeen(entry, casualtyId)
  const isMoving = said.kind === 'moved' || said.kind === 'out' || said.kind === 'not-there'
  const isOtherPlace = isMoving && seen.keepingId !== undefined && keepingId !== seen.keepingId
  const isOtherStage = said.kind === 'stage' && seen.stageNo !== undefined && stageNo !== seen.stageNo
  if (isOtherPlace || isOtherStage) throw new Failure('conflict', { rule: 'seen-otherwise' })
}

type OfAnimal = {
  readonly centreId: number
  readonly casualtyId: number
  readonly said: Exclude<RoundSaid, { kind: 'counted' | 'undo' }>
  readonly happenedAt: Date
  /** The fact whose place this one takes. */
  readonly supersedes?: number | undefined
}

/** Records what was said of an animal, through the services that everything else goes through. */
function say(actor: Actor, tap: OfAnimal, now: Date, along: Along): Promise<unknown> {
  const { said, casualtyId, centreId, happenedAt: at, supersedes } = tap
  const since = { since: at, supersedes }
  const inBuilding = { ...since, to: 'centre', centreId }
  switch (said.kind) {
    case 'weight':
      return recordWeight(actor, casualtyId, { at, grams: said.grams }, now, along)
    case 'check':
      return recordCheck(actor, said.checkId, { at, found: said.found, passed: said.passed }, now, along)
    case 'stage':
      return recordStageMoved(actor, casualtyId, { stageNo: said.stageNo, at }, now, along)
    case 'not-there':
      return recordMoved(actor, casualtyId, inBuilding, now, along)
    case 'moved': {
      const to = said.enclosureId === null ? inBuilding : { ...since, enclosureId: said.enclosureId }
      return recordMoved(actor, casualtyId, to, now, along)
    }
    case 'out':
      return recordOutcome(
        actor,
        casualtyId,
        { ...since, alive: said.alive, whereNow: said.whereNow },
        now,
        along,
      )
  }
}

/** Takes back what an entry said: the state before it returns, both stay readable. */
async function takeBack(
  actor: Actor,
  tap: Tap & { readonly said: Extract<RoundSaid, { kind: 'undo' }> },
  undoneId: number,
  now: Date,
): Promise<unknown> {
  const grant = demand(actor, 'casualty.record', { centreIds: [tap.centreId] })
  const undone = await getRoundEntry(grant, undoneId)
  demand(actor, 'casualty.record', { centreIds: [undone.centreId] })
  if (undone.state !== 'stands' || undone.said.kind === 'undo') {
    throw new Failure('conflict', { rule: 'round-undone-already' })
  }
  const { casualtyId, centreId, said, entryId, happenedAt, enteredAt } = undone
  const row = { ...tap, centreId, casualtyId: casualtyId ?? undefined, state: 'stands' } as const
  const along: Along = {
    deviceKey: tap.key,
    around: async (entry, work) => {
      if (said.kind !== 'out' || casualtyId === null) {
        const made = await work()
        await writeRoundEntry(entry, row)
        return made
      }
      await lockForTakingBack(entry, casualtyId, enteredAt)
      const made = await work()
      const places = await keepAgain(entry, casualtyId, enteredAt, now)
      await writeRoundEntry(entry, { ...row, said: { ...tap.said, ...placesOf(places) } })
      return made
    },
  }
  if (casualtyId === null) {
    const about = { now, action: 'count taken back', subject: 'centre', subjectId: centreId }
    return inEntry(grant, { ...about, deviceKey: tap.key }, async entry => {
      const before = said.kind === 'counted' && said.before ? new Date(said.before) : null
      await writeUncounted(entry, centreId, { at: happenedAt, before })
      await writeRoundEntry(entry, row)
    })
  }
  if (said.kind === 'stage') return recordStageTakenBack(actor, casualtyId, entryId, now, along)
  if (said.kind === 'weight' || said.kind === 'check') {
    const what = { permission: 'casualty.record', casualtyId, action: `${said.kind} taken back` } as const
    return record(actor, { ...what, ...along }, now, async entry => {
      await lockCasualty(entry, casualtyId)
      if (said.kind === 'weight') await voidWeights(entry, entryId)
      else await reopenChecks(entry, entryId, now)
    })
  }
  const keepingId = await findKeepingOf(grant, entryId)
  return recordUndone(actor, casualtyId, keepingId, now, along)
}

function placesOf(places: readonly KeptAgain[]) {
  const of = (isKept: boolean) => places.filter(one => one.isKept === isKept).map(one => one.enclosureId)
  return places.length === 0 ? {} : { keptAgain: of(true), lost: of(false) }
}

/** One tap of whoever asks, on a shared tablet of anybody who may have stood before it; undefined for others. */
export async function findOwnTap(
  actor: Actor,
  id: number,
  isShared = false,
): Promise<RoundEntry | undefined> {
  const entry = await getRoundEntry(demand(actor, 'round.read'), id).catch(() => undefined)
  if (entry === undefined || !may(actor, 'round.read', { centreIds: [entry.centreId] })) return undefined
  return isShared || entry.byId === actor.personId ? entry : undefined
}

/** Two versions, and a person who decides: what was tapped takes the place of what was recorded, or is set aside. */
export async function settleWaiting(
  actor: Actor,
  entryId: number,
  takesPlace: boolean,
  now: Date,
): Promise<RoundEntry> {
  const waiting = await getRoundEntry(demand(actor, 'casualty.record'), entryId)
  const { centreId, casualtyId, said } = waiting
  const grant = demand(actor, 'casualty.record', { centreIds: [centreId] })
  const settled = { state: takesPlace ? 'put-right' : 'set-aside', by: actor.personId, at: now } as const
  if (takesPlace && casualtyId !== null && said.kind !== 'counted' && said.kind !== 'undo') {
    await putRight(actor, { ...waiting, casualtyId, said }, now, async entry => {
      await settleRoundEntry(entry, entryId, settled)
    })
    return waiting
  }
  const about = { now, action: 'round entry set aside', subject: 'casualty', subjectId: casualtyId ?? 0 }
  await inEntry(grant, about, entry => settleRoundEntry(entry, entryId, settled))
  return waiting
}

async function putRight(
  actor: Actor,
  waiting: RoundEntry & OfAnimal,
  now: Date,
  settle: (entry: EntryTx) => Promise<void>,
): Promise<void> {
  const { said, casualtyId } = waiting
  const isMoving = said.kind === 'moved' || said.kind === 'out' || said.kind === 'not-there'
  const grant = demand(actor, 'round.read')
  const supersedes = isMoving ? await findNewestKeeping(grant, casualtyId) : undefined
  const done = said.kind === 'check' ? await findEntryOfCheck(grant, said.checkId) : undefined
  await say(actor, { ...waiting, supersedes }, now, {
    around: async (entry, work) => {
      await settle(entry)
      if (done !== undefined) await reopenChecks(entry, done, now)
      return work()
    },
  })
}
