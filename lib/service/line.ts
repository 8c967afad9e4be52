/**
 * The duty line: reading who holds it and what passes with it, offering, accepting, taking it over.
 * Promise: the line passes in one transaction with everything its holder owed; of two who take it at once one wins and
 * the other reads who has it. Between offer and acceptance the old holder holds. What passed is kept with the turn.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand, type Grant, may } from '#lib/authz/demand.ts'
import { listDeskDue } from '#lib/db/due.ts'
import { passOwned } from '#lib/db/duty.ts'
import { type EntryTx, inAudited } from '#lib/db/entry.ts'
import {
  endTurn,
  findOffer,
  findTurn,
  type Holder,
  insertOffer,
  insertTurn,
  isHolder,
  listHolders,
  listTurns,
  lockTurn,
  updateTurnEnd,
  withdrawOffer,
} from '#lib/db/line.ts'
import { type DueItem, inOrder, passesWithLine } from '#lib/domain/due.ts'
import {
  acceptForm,
  isTurnEnd,
  type LineOffer,
  type LineTurn,
  offerForm,
  type TurnHow,
  takeOverForm,
  type Unheld,
  unheldBecause,
  untilForm,
} from '#lib/domain/line.ts'
import { parse } from '#lib/domain/parse.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { passedWords } from '#lib/words/line.ts'

const TURNS_SHOWN = 12

/** What every page says of the line. */
export type LineState = {
  readonly turn: LineTurn | undefined
  readonly unheld: Unheld | undefined
  readonly offer: LineOffer | undefined
  /** Whom to ring while nobody holds it. */
  readonly holders: readonly Holder[]
}

export type LinePage = LineState & {
  readonly isMine: boolean
  /** An open offer this person can accept. */
  readonly isOffered: boolean
  readonly mayHold: boolean
  readonly turns: readonly LineTurn[]
  /** What goes along when the line passes, in the order in which it is owed. */
  readonly passing: readonly DueItem[]
  /** What others promised and keep. */
  readonly staying: readonly DueItem[]
}

/** System: whether the line is held, for the head of every page. */
export async function readLineState(now: Date): Promise<LineState> {
  const grant = demand(systemActor('line on every page'), 'system.run')
  const [turn, offer] = await Promise.all([findTurn(grant), findOffer(grant)])
  const unheld = unheldBecause(turn, now)
  return { turn, offer, unheld, holders: unheld === undefined ? [] : await listHolders(grant) }
}

/** The line's page: the state, what passes, who held it before. */
export async function readLine(actor: Actor, now: Date): Promise<LinePage> {
  const grant = demand(actor, 'line.read')
  const [turn, offer, holders, turns, items] = await Promise.all([
    findTurn(grant),
    findOffer(grant),
    listHolders(grant),
    listTurns(grant, TURNS_SHOWN),
    listDeskDue(grant, now),
  ])
  const mayHold = may(actor, 'line.hold')
  const isMine = turn !== undefined && turn.holderId === actor.personId
  const passes = (item: DueItem) => passesWithLine(item, turn?.holderId ?? null)
  return {
    turn,
    offer,
    holders,
    turns,
    mayHold,
    isMine,
    unheld: unheldBecause(turn, now),
    isOffered: mayHold && !isMine && isOfferedTo(offer, actor.personId),
    passing: inOrder(items.filter(passes)),
    staying: inOrder(items.filter(item => !passes(item))),
  }
}

/** Offers the line to a person, or to whoever comes next, with what is written to her. */
export async function offerLine(actor: Actor, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'line.hold')
  const { to, words } = parse(offerForm, input)
  await inAudited(
    grant,
    { now, action: 'offered', subject: 'line', subjectId: (id: number) => id },
    async entry => {
      const turn = await lockOwnTurn(grant, entry)
      if (to === turn.holderId) throw new Failure('rule', { rule: 'line-offered-to-herself', field: 'to' })
      if (to !== null && !(await isHolder(entry, to))) {
        throw new Failure('rule', { rule: 'duties-need-a-coordinator', field: 'to' })
      }
      await insertOffer(entry, { turnId: turn.id, toId: to, words, offeredAt: now })
      return turn.id
    },
  )
}

/** Takes an offer back. */
export async function takeOfferBack(actor: Actor, now: Date): Promise<void> {
  const grant = demand(actor, 'line.hold')
  await inAudited(
    grant,
    { now, action: 'offer taken back', subject: 'line', subjectId: (id: number) => id },
    async entry => {
      const turn = await lockOwnTurn(grant, entry)
      if (!(await withdrawOffer(entry, turn.id, now)))
        throw new Failure('conflict', { rule: 'line-offer-gone' })
      return turn.id
    },
  )
}

/** Says until when the holder stays. */
export async function stayOnLine(actor: Actor, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'line.hold')
  const untilAt = readEnd(input, now)
  await inAudited(
    grant,
    { now, action: 'end changed', subject: 'line', subjectId: (id: number) => id, columns: ['until_at'] },
    async entry => {
      const turn = await lockOwnTurn(grant, entry)
      await updateTurnEnd(entry, turn.id, untilAt)
      return turn.id
    },
  )
}

/** Accepts the line that was offered, or takes it up while nobody ever held it. */
export async function acceptLine(actor: Actor, input: unknown, now: Date): Promise<void> {
  demand(actor, 'line.hold')
  const { turnId } = parse(acceptForm, input)
  await pass(actor, now, {
    turnId,
    untilAt: readEnd(input, now),
    how: turnId === null ? 'taken-up' : 'accepted',
  })
}

/** Takes the line over from a holder who can't be reached, with the reason. */
export async function takeOverLine(actor: Actor, input: unknown, now: Date): Promise<void> {
  demand(actor, 'line.hold')
  const { turnId, reason } = parse(takeOverForm, input)
  await pass(actor, now, { turnId, untilAt: readEnd(input, now), how: 'taken-over', reason })
}

type Passing = {
  /** The turn the person saw. */
  readonly turnId: number | null
  readonly untilAt: Date
  readonly how: TurnHow
  readonly reason?: string
}

const ACTION: Readonly<Record<TurnHow, string>> = {
  'taken-up': 'taken up',
  accepted: 'accepted',
  'taken-over': 'taken over',
  'passed-on': 'passed on',
}

/** The line and all that goes with it, from one person to the next. */
async function pass(actor: Actor, now: Date, passing: Passing): Promise<void> {
  const grant = demand(actor, 'line.hold')
  const { personId } = actor
  if (personId === null) throw new Failure('forbidden')
  const about = {
    now,
    action: ACTION[passing.how],
    subject: 'line',
    subjectId: (id: number) => id,
    columns: ['holder_id', 'call.owner_id', 'call_back.owner_id'],
    ...(passing.reason !== undefined && { reason: passing.reason }),
  }
  await inAudited(grant, about, async entry => {
    const turn = await lockTurn(grant, entry)
    if ((turn?.id ?? null) !== passing.turnId) {
      throw new Failure('taken', {
        rule: 'line-passed-already',
        ...(turn !== undefined && { data: { by: turn.holder, say: passedWords(turn.holder) } }),
      })
    }
    if (turn?.holderId === personId) throw new Failure('conflict', { rule: 'line-yours-already' })
    if (turn !== undefined && passing.how === 'accepted') await refuseUnoffered(grant, entry, personId)
    const items = await listDeskDue(grant, now, entry.tx)
    const passed = inOrder(items.filter(item => passesWithLine(item, turn?.holderId ?? null)))
    if (turn !== undefined) {
      await endTurn(entry, turn.id, passing.how === 'accepted' ? 'accepted' : 'overtaken', now)
      await passOwned(entry.tx, turn.holderId, personId)
    }
    return insertTurn(entry, {
      holderId: personId,
      takenAt: now,
      untilAt: passing.untilAt,
      how: passing.how,
      reason: passing.reason,
      passed: passed.map(({ key }) => key),
    })
  })
}

async function refuseUnoffered(
  grant: Grant<'line.hold'>,
  { tx }: Pick<EntryTx, 'tx'>,
  personId: number,
): Promise<void> {
  const offer = await findOffer(grant, tx)
  if (offer === undefined) throw new Failure('conflict', { rule: 'line-offer-gone' })
  if (!isOfferedTo(offer, personId)) throw new Failure('rule', { rule: 'line-offered-to-another' })
}

async function lockOwnTurn(grant: Grant<'line.hold'>, entry: Pick<EntryTx, 'tx'>): Promise<LineTurn> {
  const turn = await lockTurn(grant, entry)
  if (turn === undefined || turn.holderId !== grant.actor.personId) {
    throw new Failure('conflict', { rule: 'line-not-yours', data: { by: turn?.holder } })
  }
  return turn
}

function isOfferedTo(offer: LineOffer | undefined, personId: number | null): boolean {
  return offer !== undefined && (offer.toId === null || offer.toId === personId)
}

function readEnd(input: unknown, now: Date): Date {
  const { untilAt } = parse(untilForm, input)
  if (!isTurnEnd(untilAt, now)) {
    throw new Failure('invalid', { rule: 'line-hour-not-ahead', field: 'untilAt' })
  }
  return untilAt
}
