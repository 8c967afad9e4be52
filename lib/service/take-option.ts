/**
 * Taking an option: everything it needs in one transaction, or nothing.
 * Promise: what is taken is what was shown, computed again from the network of this moment; if somebody took the place
 * a second earlier the sheet stays and Failure 'taken' says so. The decision keeps every option and its inputs.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { createAdmission, planHold } from '#lib/db/admission.ts'
import { type Call, closeCall, createCallBack, getCall, parkCallIn } from '#lib/db/call.ts'
import { closeAnswered } from '#lib/db/call-pair.ts'
import { createDecision, createUnmetDemand } from '#lib/db/decision.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { lockForHolds } from '#lib/db/hold.ts'
import { canBeAsked } from '#lib/domain/escalation.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import { parse } from '#lib/domain/parse.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { Random } from '#lib/kernel/random.ts'
import { callBackAt } from '#lib/plan/question.ts'
import { admissionOf, newReferences } from './admission.ts'
import { putAsks } from './ask-put.ts'
import { readTonight, type Tonight } from './network.ts'
import { type Answered, answerFrom } from './option.ts'

const REASON_MAX = 300
const AGREED_MAX = 120
const MS_PER_MINUTE = 60_000

const taking = z.object({
  key: z.string().min(1),
  /** Why not the first; one optional tap. */
  reason: z.string().trim().max(REASON_MAX).default(''),
  /** Who said yes, where the centre had to be asked first. */
  agreedBy: z.string().trim().max(AGREED_MAX).default(''),
  /** The centre is asked now, and its answer is waited for. */
  askNow: z.boolean().default(false),
  /** How many named places the option held when it was shown. */
  places: z.coerce.number().int().min(0).default(0),
})

const UNMET_KINDS: Partial<Record<PlacementOption['kind'], 'redirect' | 'keep-till-morning'>> = {
  redirect: 'redirect',
  'keep till morning': 'keep-till-morning',
}

export type Taken = {
  readonly kind: PlacementOption['kind']
  readonly decisionId: number
  readonly references: readonly string[]
}

type Taking = {
  readonly actor: Actor
  readonly call: Call
  readonly option: PlacementOption
  readonly answered: Answered
  readonly tonight: Tonight
  readonly reason: string
  readonly agreedBy: string
  readonly askNow: boolean
  readonly now: Date
  /** Draws references. */
  readonly random: Random
}

/** Takes an option of a call by its key. Failure 'rule' when it is not among the options any more. */
export async function takeOption(
  actor: Actor,
  callId: number,
  input: unknown,
  now: Date,
  random: Random = Math.random,
): Promise<Taken> {
  const grant = demand(actor, 'option.take')
  const { key, reason, agreedBy, askNow, places } = parse(taking, input)
  const [call, tonight] = await Promise.all([getCall(demand(actor, 'call.read'), callId), readTonight(now)])
  if (call.state === 'closed') throw new Failure('conflict', { rule: 'call-closed-already' })
  const answered = answerFrom(demand(actor, 'call.read'), tonight, call.facts, now)
  const option = answered.ranked?.options.find(one => one.key === key)
  if (option === undefined) throw new Failure('taken', { rule: 'option-gone' })
  if (option.placesTonight.length < places) throw new Failure('taken', { rule: 'place-gone' })
  if (option.askFirst !== null && agreedBy === '' && !(askNow && canBeAsked(option))) {
    throw new Failure('rule', { rule: 'ask-first-unanswered', field: `agreedBy-${key}` })
  }
  const all: Taking = { actor, call, option, answered, tonight, reason, agreedBy, askNow, now, random }
  return inEntry(grant, { now, action: 'option taken', subject: 'call', subjectId: callId }, tx =>
    write(tx, all),
  )
}

async function write(entry: EntryTx, taking: Taking): Promise<Taken> {
  const { option, call, now } = taking
  const admitted = needsCasualty(option) ? await admit(entry, taking) : null
  const decisionId = await createDecision(entry.tx, {
    callId: call.id,
    arrivalId: admitted?.arrivalId ?? null,
    at: now,
    decidedBy: taking.actor.personId,
    kind: option.kind,
    takenKey: option.key,
    ranked: taking.answered.ranked ?? { options: [], ruledOut: [] },
    inputs: { ...taking.answered.inputs, facts: withoutFinder(call) },
    reason: taking.reason === '' ? null : taking.reason,
  })
  if (admitted !== null) {
    await putAsks(demand(taking.actor, 'option.take'), entry, {
      ...taking,
      callId: call.id,
      network: taking.tonight.state,
      conditions: (taking.answered.animals?.conditions ?? []).map(one => one.name),
      decisionId,
      casualtyIds: admitted.casualtyIds,
    })
  }
  if (option.isUnmetDemand) await countUnmet(entry, taking)
  await finishCall(entry, taking)
  return { kind: option.kind, decisionId, references: admitted?.references ?? [] }
}

async function admit(entry: EntryTx, taking: Taking) {
  const { tx, entryId } = entry
  const { actor, option, call, answered, tonight, now, random } = taking
  const animals = answered.animals
  if (animals === null) throw new Failure('rule', { rule: 'option-gone' })
  const { today } = tonight
  const grant = demand(actor, 'option.take')
  const references = await newReferences(grant, entry, { count: call.facts.count, today, random })
  const admission = admissionOf(grant, {
    callId: call.id,
    facts: call.facts,
    animals,
    stops: option.path.map(stop => ({ centreId: Number(stop.centre.id), from: stop.from.q50 })),
    today,
    finderDays: tonight.state.policy.finder_days,
    references,
    at: now,
  })
  const { arrivalId, casualtyIds } = await createAdmission(tx, entryId, admission)
  const expectedAt = new Date(now.getTime() + (option.travel?.minutes ?? 0) * MS_PER_MINUTE)
  const expiresAt = new Date(expectedAt.getTime() + tonight.state.policy.hold_minutes * MS_PER_MINUTE)
  await lockForHolds(
    entry,
    casualtyIds,
    option.placesTonight.map(place => Number(place.enclosureId)),
  )
  for (const [index, place] of option.placesTonight.entries()) {
    const casualtyId = casualtyIds[index]
    if (casualtyId === undefined) break
    await planHold(
      tx,
      {
        casualtyId,
        enclosureId: Number(place.enclosureId),
        placeNo: place.placeNo,
        startsAt: expectedAt,
        expectedAt,
        expiresAt,
        needsIsolation: animals.needs[0]?.needsIsolation ?? false,
      },
      now,
    )
  }
  return { arrivalId, references, casualtyIds }
}

async function countUnmet({ tx }: EntryTx, { option, call, answered, now }: Taking): Promise<void> {
  const group = answered.animals?.group.slug
  if (group === undefined) return
  await createUnmetDemand(tx, {
    callId: call.id,
    at: now,
    kind: UNMET_KINDS[option.kind] ?? 'advice',
    group,
    animals: call.facts.count,
    reason: option.to?.name ?? '',
  })
}

/** A call that goes on (kept till morning, examined outside, reported) is put aside with a call-back; others close. */
async function finishCall({ tx }: EntryTx, { option, call, actor, tonight, now }: Taking): Promise<void> {
  const goesOn = ['keep till morning', 'examine outside', 'report'].includes(option.kind)
  if (!goesOn) {
    await closeCall(tx, call.id, now)
    return closeAnswered(tx, call.id, now)
  }
  await parkCallIn(tx, call.id, { at: now, by: actor.personId })
  if (option.kind === 'keep till morning' && actor.personId !== null) {
    await createCallBack(
      demand(actor, 'call.take'),
      {
        callId: call.id,
        dueAt: callBackAt(now, tonight.state.zone),
        ownerId: actor.personId,
        what: option.kind,
      },
      tx,
    )
  }
}

function needsCasualty({ kind }: PlacementOption): boolean {
  return kind === 'admit' || kind === 'admit and move' || kind === 'vet'
}

/** What the decision keeps of the sheet names nobody. */
function withoutFinder({ facts }: Call) {
  const { finderName: _name, finderPhone: _phone, notes: _notes, ...kept } = facts
  return kept
}
