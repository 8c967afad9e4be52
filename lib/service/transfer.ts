/**
 * Moves between centres: proposed, put to the receiving centre as an ask or agreed by its standing offer, cancelled.
 * Promise: a move that a movement stop forbids is refused with its sentence; the animal stays where it is until a driver
 * has it. The centre's yes keeps a place in the transaction of the answer, its no and its silence keep none.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { createAsk, endAsk } from '#lib/db/ask.ts'
import { endHoldsAt, holdFirstFree, listContactsOf } from '#lib/db/ask-turn.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { revokeLinks } from '#lib/db/link.ts'
import { findStop, lockStart } from '#lib/db/road.ts'
import {
  endTransfer,
  findTransferOfAsk,
  insertTransfer,
  listTransfers,
  lockOffer,
  lockTransfer,
  type TransferView,
} from '#lib/db/transfer.ts'
import { stageToPlace } from '#lib/domain/coming-stages.ts'
import { answerersOf } from '#lib/domain/escalation.ts'
import { freePlaces } from '#lib/domain/free-place.ts'
import { parseAt } from '#lib/domain/parse.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import { transferInput } from '#lib/domain/transfer.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { isOffered } from '#lib/plan/offer.ts'
import { ASK_TURN } from '#lib/words/ask.ts'
import { momentOf } from './about-casualty.ts'
import { type AskNetwork, type MayAsk, putTo, readAskNetwork } from './ask-turn.ts'
import { readProposedMoves } from './move-proposal.ts'
import { readState } from './network.ts'

const MS_PER_MINUTE = 60_000
/** Whoever is asked first has until so long before the animal is expected: it is no call at night. Ours. */
const ANSWERED_BEFORE_MS = 2 * 60 * MS_PER_MINUTE

export type { TransferView }

/** Moves that are open, and those that ended within a day. */
export async function readTransfers(actor: Actor, now: Date): Promise<TransferView[]> {
  return listTransfers(demand(actor, 'move.read'), now)
}

export type ProposedTransfer = {
  readonly id: number
  /** The centre's standing offer answered for it, so nobody is asked. */
  readonly isAgreed: boolean
}

/** Proposes a move and asks the receiving centre, unless its standing offer answers. */
export async function proposeTransfer(actor: Actor, input: unknown, now: Date): Promise<ProposedTransfer> {
  demand(actor, 'move.arrange')
  const grant = demand(actor, 'ask.put')
  const wanted = parseAt(transferInput, await momentOf(now), input)
  const { casualtyId, toCentreId, expectedAt } = wanted
  const [network, proposed] = await Promise.all([readAskNetwork(now), readProposedMoves(actor, now)])
  const centre = network.centres.find(({ id }) => id === toCentreId)
  if (centre === undefined) throw new Failure('invalid', { rule: 'missing', field: 'toCentreId' })
  const shown = proposed.find(move => move.casualtyId === casualtyId && move.to.id === toCentreId)
  const lapsesAt = new Date(expectedAt.getTime() + network.policy.hold_minutes * MS_PER_MINUTE)
  return inEntry(
    grant,
    {
      now,
      action: 'transfer proposed',
      subject: 'transfer',
      subjectId: ({ id }: ProposedTransfer) => id,
      columns: ['to_centre_id', 'expected_at'],
    },
    async entry => {
      const { tx } = entry
      const fromCentreId = await lockWhere(tx, wanted, now)
      await lockOffer(tx, toCentreId)
      const seen = await readState(now)
      const resident = seen.state.residents.find(({ id }) => id === casualtyId)
      const isAgreed = resident !== undefined && isOffered(toCentreId, resident, seen, now)
      const askId = await createAsk(tx, {
        to: { kind: 'centre', id: toCentreId },
        casualtyId,
        callId: null,
        referralId: null,
        turn: null,
        putAt: now,
        lapsesAt: new Date(now.getTime() + network.policy.ask_lapse_minutes * MS_PER_MINUTE),
        agreedBy: isAgreed ? ASK_TURN.standingOffer : null,
      })
      const id = await insertTransfer(tx, {
        casualtyId,
        fromCentreId,
        toCentreId,
        state: isAgreed ? 'agreed' : 'proposed',
        reason: shown?.why ?? 'by-hand',
        bills: shown?.bills ?? null,
        proposedAt: now,
        proposedBy: grant.actor.personId,
        expectedAt,
        lapsesAt,
        askId,
      })
      if (isAgreed) await keepForTransfer(grant, tx, basisOf({ ...wanted, lapsesAt }, seen, now), now)
      else await askFirst(grant, entry, { askId, centre, network, expectedAt, now })
      return { id, isAgreed }
    },
  )
}

/** Where it is, under its lock. Failure where no centre has it, or a movement stop keeps it there. */
async function lockWhere(tx: EntryTx['tx'], to: Wanted, now: Date): Promise<number> {
  const [start] = await lockStart(tx, [to.casualtyId])
  if (start?.keeper !== 'centre' || start.centreId === null) {
    throw new Failure('rule', { rule: 'transfer-from-a-centre' })
  }
  const rule = await findStop(tx, to.casualtyId, to.toCentreId, now)
  if (rule !== null) throw new Failure('rule', { rule, field: 'toCentreId' })
  return start.centreId
}

type FirstAsk = {
  readonly askId: number
  readonly centre: AskNetwork['centres'][number]
  readonly network: AskNetwork
  readonly expectedAt: Date
  readonly now: Date
}

async function askFirst(grant: MayAsk, entry: EntryTx, ask: FirstAsk): Promise<void> {
  const { askId, centre, network, expectedAt, now } = ask
  const contacts = await listContactsOf(entry.tx, centre.id)
  const [answerer] = answerersOf(centre, contacts, now, network.zone)
  const until = new Date(expectedAt.getTime() - ANSWERED_BEFORE_MS)
  await putTo(grant, entry, { askId, tryNo: 1, answerer, network, now, until })
}

/** Cancels a move that nobody drives yet: its ask is taken back, the place kept for it given up. */
export async function cancelTransfer(actor: Actor, id: number, now: Date): Promise<void> {
  const grant = demand(actor, 'move.arrange')
  await inEntry(
    grant,
    { now, action: 'transfer cancelled', subject: 'transfer', subjectId: id, columns: ['state'] },
    async ({ tx }) => {
      const transfer = await lockTransfer(tx, id)
      if (transfer.state === 'on-the-road') throw new Failure('rule', { rule: 'transfer-on-the-road' })
      if (transfer.state !== 'proposed' && transfer.state !== 'agreed') {
        throw new Failure('conflict', { rule: 'transfer-over' })
      }
      await endTransfer(tx, id, 'cancelled', now)
      if (transfer.askId !== null) {
        await endAsk(tx, transfer.askId, { state: 'taken-back' })
        await revokeLinks(tx, { purpose: 'ask', askId: transfer.askId }, now)
      }
      await endHoldsAt(tx, [transfer.casualtyId], transfer.toCentreId, 'given-up', now)
    },
  )
}

type Wanted = {
  readonly casualtyId: number
  readonly toCentreId: number
  readonly expectedAt: Date
}

export type TransferBasis = {
  readonly casualtyId: number
  readonly startsAt: Date
  readonly lapsesAt: Date
  readonly enclosureIds: readonly number[]
  readonly needsIsolation: boolean
}

/** System: where a place could be kept once the centre says yes, best first; null where the ask is about no move. */
export async function readTransferBasis(askId: number, now: Date): Promise<TransferBasis | null> {
  const transfer = await findTransferOfAsk(demand(systemActor('whose move'), 'system.run'), askId)
  return transfer === null ? null : basisOf(transfer, await readState(now), now)
}

function basisOf(
  { casualtyId, toCentreId, expectedAt, lapsesAt }: Wanted & { readonly lapsesAt: Date },
  { state, trade }: Awaited<ReturnType<typeof readState>>,
  now: Date,
): TransferBasis {
  const startsAt = expectedAt > now ? expectedAt : now
  const resident = state.residents.find(({ id }) => id === casualtyId)
  const planned = resident === undefined ? undefined : stageToPlace(resident)
  if (resident === undefined || planned === undefined) {
    return { casualtyId, startsAt, lapsesAt, enclosureIds: [], needsIsolation: false }
  }
  const need = plannedNeed(resident, planned, trade)
  const free = freePlaces(state, toCentreId, need, startsAt).map(place => place.enclosureId)
  return {
    casualtyId,
    startsAt,
    lapsesAt,
    enclosureIds: [...new Set(free)],
    needsIsolation: need.needsIsolation,
  }
}

/** Keeps a place for a move that was agreed; where none lets it the yes stands all the same. */
export async function keepForTransfer(
  _grant: MayAsk,
  tx: EntryTx['tx'],
  { startsAt, lapsesAt, ...wanted }: TransferBasis,
  now: Date,
): Promise<void> {
  if (wanted.enclosureIds.length === 0 || lapsesAt <= now) return
  await holdFirstFree(tx, { ...wanted, startsAt, expectedAt: startsAt, expiresAt: lapsesAt }, now)
}
