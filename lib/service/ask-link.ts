/**
 * The page of a one-time link: one case for whoever has it, and one answer.
 * Promise: what is no token is never looked up; each opening is in the audit; once the ask is answered, taken back or
 * over, nothing of the case is shown any more.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { lockAsk } from '#lib/db/ask.ts'
import { type AskCase, getAskCase, inLinkTransaction, noteOpening } from '#lib/db/ask-case.ts'
import { inEntry } from '#lib/db/entry.ts'
import { findLink, type Link, openLink, spendLink } from '#lib/db/link.ts'
import { readNetworkFacts } from '#lib/db/network-facts.ts'
import { answerInput } from '#lib/domain/ask-answer.ts'
import { linkStanding } from '#lib/domain/link.ts'
import { parseAt } from '#lib/domain/parse.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { momentOf } from './about-casualty.ts'
import { readBasis, writeAnswer } from './ask-answer.ts'
import { tokenHashOf } from './link.ts'

export type AnswerPage =
  | { readonly kind: 'unknown' }
  | { readonly kind: 'over'; readonly phone: string }
  | {
      readonly kind: 'answered'
      readonly phone: string
      readonly isYes: boolean
      readonly by: string | null
      readonly at: Date
      readonly comesAt: Date | null
    }
  | { readonly kind: 'open'; readonly network: string; readonly phone: string; readonly one: AskCase }

/** System: what a link shows at an instant; looking at it is noted. */
export async function readAnswerPage(token: string, now: Date): Promise<AnswerPage> {
  const grant = demand(systemActor('link opened'), 'system.run')
  const link = await linkOf(token)
  if (link === undefined || link.subject.purpose !== 'ask') return { kind: 'unknown' }
  const { askId } = link.subject
  await inLinkTransaction(grant, async tx => {
    const isOpen = linkStanding(link, now) === 'open'
    await noteOpening({ tx }, { askId, linkId: link.id, at: now, isOpen })
    await openLink(tx, link.id, now)
  })
  const [one, network] = await Promise.all([getAskCase(grant, askId), readNetworkFacts(grant)])
  const phone = network.linePhone
  if (one.state === 'put' && linkStanding(link, now) === 'open') {
    return { kind: 'open', network: network.name, phone, one }
  }
  const isAnswered = link.usedAt !== null && one.answeredAt !== null
  if (!isAnswered || one.answeredAt === null) return { kind: 'over', phone }
  return {
    kind: 'answered',
    phone,
    isYes: one.state === 'yes',
    by: one.answeredBy,
    at: one.answeredAt,
    comesAt: one.comesAt,
  }
}

/** System: the answer of whoever has the link. Failure 'taken' when it can't count any more. */
export async function answerByLink(token: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(systemActor('answer by link'), 'system.run')
  const link = await linkOf(token)
  if (link === undefined || link.subject.purpose !== 'ask') throw new Failure('not-found')
  const { askId } = link.subject
  if (linkStanding(link, now) !== 'open') throw new Failure('taken', { rule: 'link-over' })
  const given = parseAt(answerInput, await momentOf(now), input)
  const basis = await readBasis(askId, given, now)
  await inEntry(
    grant,
    { now, action: `ask answered ${given.say}`, subject: 'ask', subjectId: askId, columns: ['state'] },
    async entry => {
      // After the ask's own locks, as everywhere; before the answer, which takes back every link that was not used.
      await lockAsk(entry.tx, askId)
      const isFirst = await spendLink(entry.tx, link.id, now)
      if (!isFirst) throw new Failure('taken', { rule: 'link-over' })
      await writeAnswer(grant, entry, askId, given, basis, now)
    },
  )
}

/** System: the case of a link that still waits for its answer; looking at it is not noted again. */
export async function findOpenCase(token: string, now: Date): Promise<AskCase | undefined> {
  const link = await linkOf(token)
  if (link === undefined || link.subject.purpose !== 'ask' || linkStanding(link, now) !== 'open')
    return undefined
  const one = await getAskCase(demand(systemActor('case of a link'), 'system.run'), link.subject.askId)
  return one.state === 'put' ? one : undefined
}

async function linkOf(token: string): Promise<Link | undefined> {
  const hash = tokenHashOf(token)
  if (hash === undefined) return undefined
  return findLink(demand(systemActor('link'), 'system.run'), hash)
}
