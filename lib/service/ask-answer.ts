/**
 * An answer to an ask, on the phone or through its link: the same transaction for both.
 * Promise: of two answers at once one counts, and the other is told which. A centre's yes keeps its places until the
 * animals come; its no goes on to the next. A vet's yes books the time, keeps the place afterwards, makes the checks
 * and takes the other asks of the referral back, all of it or nothing.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { endAsk, type LockedAsk, lockAsk, requireOpen, takeBackOthers } from '#lib/db/ask.ts'
import { type AskedOf, getAskedOf } from '#lib/db/ask-list.ts'
import { delayHoldsAt, endHoldsAt, getTurn, holdFirstFree } from '#lib/db/ask-turn.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { writeDeparture } from '#lib/db/hold.ts'
import { revokeLinks } from '#lib/db/link.ts'
import { bookChecks, isAtCentre } from '#lib/db/vet-booking.ts'
import { type AnswerGiven, answerInput } from '#lib/domain/ask-answer.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import { freePlaces } from '#lib/domain/free-place.ts'
import { parseAt } from '#lib/domain/parse.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { vetCheckWords } from '#lib/words/ask-page.ts'
import { momentOf } from './about-casualty.ts'
import { newLinkTo } from './ask-mail.ts'
import { type AskNetwork, goOn, keepPlaces, type MayAsk, readAskNetwork } from './ask-turn.ts'
import { readState } from './network.ts'
import { keepForTransfer, readTransferBasis, type TransferBasis } from './transfer.ts'

const MS_PER_MINUTE = 60_000
const MS_PER_HOUR = 3_600_000
/** A place kept for after the vet waits so long beyond the visit; expected back the same day. Ours. */
const BACK_HOURS = 6
const KEPT_HOURS = 48

/** What an answer needs that is read before the transaction. */
export type AnswerBasis = {
  readonly network: AskNetwork
  readonly asked: AskedOf
  /** Where a place could be kept for a move between centres; null where the ask is about none. */
  readonly move: TransferBasis | null
  /** Where a place could be kept after the vet, best first. */
  readonly placesAfter: { readonly enclosureIds: readonly number[]; readonly needsIsolation: boolean }
}

/** An answer given on the phone, as the coordinator writes it down. */
export async function answerByPhone(actor: Actor, askId: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'ask.put')
  const given = parseAt(answerInput, await momentOf(now), input)
  const basis = await readBasis(askId, given, now)
  await inEntry(
    grant,
    { now, action: `ask answered ${given.say}`, subject: 'ask', subjectId: askId, columns: ['state'] },
    entry => writeAnswer(grant, entry, askId, given, basis, now),
  )
}

/** Nobody picks up: the next one is asked now. */
export async function askNext(actor: Actor, askId: number, now: Date): Promise<void> {
  const grant = demand(actor, 'ask.put')
  await inEntry(grant, { now, action: 'ask.next', subject: 'ask', subjectId: askId }, async entry => {
    await goOn(grant, entry, requireOpen(await lockAsk(entry.tx, askId)), 'silent', now)
  })
}

/** The ask is taken back; a place kept at the centre is given up with it. */
export async function takeAskBack(actor: Actor, askId: number, now: Date): Promise<void> {
  const grant = demand(actor, 'ask.put')
  await inEntry(
    grant,
    { now, action: 'ask taken back', subject: 'ask', subjectId: askId, columns: ['state'] },
    async ({ tx }) => {
      const ask = requireOpen(await lockAsk(tx, askId))
      await endAsk(tx, askId, { state: 'taken-back' })
      await revokeLinks(tx, { purpose: 'ask', askId }, now)
      if (ask.centreId !== null) await endHoldsAt(tx, ask.casualtyIds, ask.centreId, 'given-up', now)
    },
  )
}

/** A link to send by hand; its address is shown once. */
export async function makeAskLink(actor: Actor, askId: number, now: Date): Promise<string> {
  const grant = demand(actor, 'ask.put')
  return inEntry(grant, { now, action: 'link made', subject: 'ask', subjectId: askId }, async ({ tx }) => {
    requireOpen(await lockAsk(tx, askId))
    return newLinkTo(grant, tx, askId, now)
  })
}

/** System: what is read before an answer is written; the places for after the vet only where there is a yes. */
export async function readBasis(askId: number, given: AnswerGiven, now: Date): Promise<AnswerBasis> {
  const [network, asked] = await Promise.all([
    readAskNetwork(now),
    getAskedOf(demand(systemActor('whose ask'), 'system.run'), askId),
  ])
  const none = { enclosureIds: [], needsIsolation: false }
  const move = given.say === 'yes' ? await readTransferBasis(askId, now) : null
  const { homeCentreId, practice, casualtyId } = asked
  if (practice === null) return { network, asked, move, placesAfter: none }
  if (given.say === 'yes' && given.comesAt === undefined) {
    throw new Failure('invalid', { rule: 'ask_vets_yes_has_a_time', field: 'comesAt' })
  }
  if (given.say === 'no' || homeCentreId === null || given.comesAt === undefined) {
    return { network, asked, move, placesAfter: none }
  }
  const { state, trade } = await readState(now)
  const resident = state.residents.find(({ id }) => id === casualtyId)
  const planned = resident?.stages.find(({ no }) => no === (resident.began?.no ?? 1)) ?? resident?.stages[0]
  if (resident === undefined || planned === undefined) return { network, asked, move, placesAfter: none }
  const need = plannedNeed(resident, planned, trade)
  const free = freePlaces(state, homeCentreId, need, given.comesAt).map(place => place.enclosureId)
  // Its own place is free again when it goes to the vet.
  const own =
    resident.centreId === homeCentreId && resident.enclosureId !== null ? [resident.enclosureId] : []
  return {
    network,
    asked,
    move,
    placesAfter: { enclosureIds: [...new Set([...own, ...free])], needsIsolation: need.needsIsolation },
  }
}

/** Writes an answer under the locks of its ask. Failure 'taken' or 'conflict' when it can't count any more. */
export async function writeAnswer(
  grant: MayAsk,
  entry: EntryTx,
  askId: number,
  given: AnswerGiven,
  basis: AnswerBasis,
  now: Date,
): Promise<void> {
  const { tx } = entry
  const ask = requireOpen(await lockAsk(tx, askId))
  const { say, by } = given
  if (say === 'no') {
    const reason = given.reason === '' ? null : given.reason
    await endAsk(tx, askId, { state: 'no', at: now, by, reason })
    await revokeLinks(tx, { purpose: 'ask', askId }, now)
    if (ask.centreId !== null && ask.decisionId !== null) await goOn(grant, entry, ask, 'no', now)
    return
  }
  const comesAt = ask.practiceId === null ? null : (given.comesAt ?? null)
  await endAsk(tx, askId, { state: 'yes', at: now, by, comesAt })
  await revokeLinks(tx, { purpose: 'ask', askId }, now)
  if (basis.move !== null) return keepForTransfer(grant, entry.tx, basis.move, now)
  if (ask.practiceId === null) return agreeWithCentre(grant, entry, ask, basis.network, now)
  if (comesAt !== null) await bookVet(entry, ask, basis, comesAt, now)
}

/** The places wait for the finder, who starts only now; one that ran out meanwhile is kept anew. */
async function agreeWithCentre(
  grant: MayAsk,
  { tx }: EntryTx,
  ask: LockedAsk,
  network: AskNetwork,
  now: Date,
): Promise<void> {
  if (ask.centreId === null || ask.decisionId === null) return
  const { ranked } = await getTurn(tx, ask.decisionId)
  const option = ranked.options.find(({ key }) => key === ask.optionKey)
  if (option === undefined) return
  const expectedAt = new Date(now.getTime() + (option.travel?.minutes ?? 0) * MS_PER_MINUTE)
  const expiresAt = new Date(expectedAt.getTime() + network.policy.hold_minutes * MS_PER_MINUTE)
  const kept = await delayHoldsAt(tx, ask.casualtyIds, ask.centreId, { expectedAt, expiresAt })
  const without = ask.casualtyIds.filter(id => !kept.includes(id))
  if (without.length > 0) await keepPlaces(grant, tx, without, option, network, now)
}

async function bookVet(
  entry: EntryTx,
  ask: LockedAsk,
  { network, asked, placesAfter }: AnswerBasis,
  comesAt: Date,
  now: Date,
): Promise<void> {
  const { tx } = entry
  const { casualtyId, referralId } = ask
  if (referralId !== null) {
    for (const askId of await takeBackOthers(tx, referralId, ask.id)) {
      await revokeLinks(tx, { purpose: 'ask', askId }, now)
    }
  }
  if (comesAt > now && (await isAtCentre(entry, casualtyId))) {
    await writeDeparture(entry, casualtyId, comesAt, now)
  }
  if (placesAfter.enclosureIds.length > 0) {
    const startsAt = comesAt > now ? comesAt : now
    await holdFirstFree(
      tx,
      {
        casualtyId,
        ...placesAfter,
        startsAt,
        expectedAt: new Date(startsAt.getTime() + BACK_HOURS * MS_PER_HOUR),
        expiresAt: new Date(startsAt.getTime() + KEPT_HOURS * MS_PER_HOUR),
      },
      now,
    )
  }
  const seenOn = dayOfInstant(comesAt, network.zone)
  const words = vetCheckWords(asked.practice ?? '', asked.what ?? '')
  await bookChecks(entry, casualtyId, seenOn, [
    { checkSlug: 'vet-exam', what: words.visit, dueOn: seenOn, who: 'vet' },
    { checkSlug: 'second-look', what: words.after, dueOn: seenOn + 1, who: 'carer' },
  ])
}
