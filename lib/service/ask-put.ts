/**
 * The asks that go with an option that was taken: a centre beyond its standing offer, a practice.
 * Promise: written with the decision, in its transaction. Whoever agreed on the phone is an answer at once; else the
 * centre is asked from now on, and the finder is promised a call with the answer.
 */

import type { Actor } from '#lib/authz/actor.ts'
import { createAsk } from '#lib/db/ask.ts'
import { listContactsOf, promiseToRing } from '#lib/db/ask-turn.ts'
import type { EntryTx } from '#lib/db/entry.ts'
import { answerersOf } from '#lib/domain/escalation.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import { ASK_TURN, offersOf } from '#lib/words/ask.ts'
import { type AskNetwork, type MayAsk, putTo } from './ask-turn.ts'
import { askPractice } from './referral.ts'

const MS_PER_MINUTE = 60_000

export type AsksOf = {
  readonly actor: Actor
  readonly callId: number
  readonly option: PlacementOption
  /** What is wrong with them, in words. */
  readonly conditions: readonly string[]
  readonly network: AskNetwork
  readonly agreedBy: string
  readonly decisionId: number
  readonly casualtyIds: readonly number[]
  readonly now: Date
}

/** Writes the asks of an option; none for a centre within what it offers. */
export async function putAsks(grant: MayAsk, entry: EntryTx, asks: AsksOf): Promise<void> {
  const { option, casualtyIds } = asks
  const [first] = casualtyIds
  if (first === undefined) return
  if (option.kind === 'vet') {
    for (const casualtyId of casualtyIds) await askVet(grant, entry, asks, casualtyId)
  }
  if (option.askFirst !== null) await askCentre(grant, entry, asks, first)
}

async function askCentre(grant: MayAsk, entry: EntryTx, asks: AsksOf, casualtyId: number): Promise<void> {
  const { actor, callId, option, network, agreedBy, decisionId, now } = asks
  const centreId = Number(option.kind === 'vet' ? option.path[0]?.centre.id : option.to?.id)
  const centre = network.centres.find(({ id }) => id === centreId)
  if (centre === undefined) return
  const lapsesAt = new Date(now.getTime() + network.policy.ask_lapse_minutes * MS_PER_MINUTE)
  const askId = await createAsk(entry.tx, {
    to: { kind: 'centre', id: centreId },
    casualtyId,
    callId,
    referralId: null,
    turn: { decisionId, optionKey: option.key },
    putAt: now,
    lapsesAt,
    agreedBy: agreedBy === '' ? null : agreedBy,
  })
  if (agreedBy !== '') return
  const contacts = await listContactsOf(entry.tx, centreId)
  const [answerer] = answerersOf(centre, contacts, now, network.zone)
  await putTo(grant, entry, { askId, tryNo: 1, answerer, network, now })
  await promiseToRing(entry.tx, {
    callId,
    ownerId: actor.personId,
    dueAt: lapsesAt,
    what: ASK_TURN.tellAnswer(centre.name),
  })
}

async function askVet(grant: MayAsk, entry: EntryTx, asks: AsksOf, casualtyId: number): Promise<void> {
  const { callId, option, conditions, network, now } = asks
  if (option.to === null) return
  const what = conditions.join(', ')
  const home = option.path[0]?.centre
  await askPractice(grant, entry, {
    casualtyId,
    callId,
    put: {
      what: what === '' ? ASK_TURN.firstLook : what,
      homeCentreId: home === undefined ? undefined : Number(home.id),
      offers: offersOf(option.path),
    },
    practice: { id: Number(option.to.id), name: option.to.name, phone: option.to.phone ?? '' },
    lapseMinutes: network.policy.ask_lapse_minutes,
    now,
  })
}
