/**
 * Asks as pages show them: those that wait, those that ended, what is sent by hand for one.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand, may } from '#lib/authz/demand.ts'
import { getAskCase } from '#lib/db/ask-case.ts'
import {
  type AskLine,
  getAskedOf,
  listAsksLately,
  listAsksOfCall,
  listAsksOfCasualty,
  listOpenAsks,
} from '#lib/db/ask-list.ts'
import { readNetworkFacts } from '#lib/db/network-facts.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { askText, centreFacts, vetFacts } from '#lib/words/ask-page.ts'
import { demandOn } from './about-casualty.ts'

export type { AskLine } from '#lib/db/ask-list.ts'

export type AskDesk = {
  readonly open: readonly AskLine[]
  readonly lately: readonly AskLine[]
  readonly mayPut: boolean
}

/** The asks of the desk. */
export async function readAskDesk(actor: Actor, now: Date): Promise<AskDesk> {
  const grant = demand(actor, 'call.read')
  const [open, lately] = await Promise.all([listOpenAsks(grant, now), listAsksLately(grant, now)])
  return { open, lately, mayPut: may(actor, 'ask.put') }
}

/** The asks of one call. */
export async function readAsksOfCall(actor: Actor, callId: number): Promise<AskLine[]> {
  return listAsksOfCall(demand(actor, 'call.read'), callId)
}

/** The asks about one animal. */
export async function readAsksOfCasualty(actor: Actor, casualtyId: number): Promise<AskLine[]> {
  return listAsksOfCasualty(await demandOn(actor, { permission: 'casualty.read', casualtyId }), casualtyId)
}

export type AskPage = {
  readonly ask: AskLine
  /** Others that were asked about the same. */
  readonly others: readonly AskLine[]
  /** To send or to read aloud; null for whoever may not ask. */
  readonly text: string | null
  readonly mayPut: boolean
}

/** One ask with everything to do about it. Failure 'not-found' for a number that is none. */
export async function readAskPage(actor: Actor, askId: number): Promise<AskPage> {
  const grant = demand(actor, 'call.read')
  const { casualtyId } = await getAskedOf(demand(systemActor('whose ask'), 'system.run'), askId)
  const all = await listAsksOfCasualty(demand(actor, 'casualty.read'), casualtyId)
  const ask = all.find(({ id }) => id === askId)
  if (ask === undefined) throw new Failure('not-found')
  const mayPut = may(grant.actor, 'ask.put')
  return {
    ask,
    others: all.filter(({ id }) => id !== askId),
    text: mayPut ? await readAskText(actor, askId, null) : null,
    mayPut,
  }
}

/** The ask as text to send or to read aloud; without a link it says only which number to ring. */
export async function readAskText(actor: Actor, askId: number, link: string | null): Promise<string> {
  demand(actor, 'ask.put')
  const system = demand(systemActor('text of an ask'), 'system.run')
  const [one, network] = await Promise.all([getAskCase(system, askId), readNetworkFacts(system)])
  const isVet = one.to.kind === 'practice'
  return askText({
    network: network.name,
    phone: network.linePhone,
    isVet,
    facts: isVet ? vetFacts(one, network.zone) : centreFacts(one, network.zone),
    what: one.what,
    offers: one.offers,
    home: one.home,
    link,
  })
}
