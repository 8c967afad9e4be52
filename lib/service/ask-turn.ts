/**
 * An ask goes on: from somebody who is silent to the next who answers for the centre, from a centre to the next one of
 * the options as they were decided on.
 * Promise: each step is one transaction with its audit row, so a process that dies in the middle leaves the step to the
 * next one, and nobody is asked twice. The places that rested on a silent centre run out in the same commit.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import {
  createAsk,
  createTry,
  endAsk,
  type LockedAsk,
  listAskedCentres,
  listRung,
  lockAsk,
} from '#lib/db/ask.ts'
import {
  claimDueAsk,
  type DecidedTurn,
  endHoldsAt,
  getFeeding,
  getTurn,
  hasDueAsk,
  holdFirstFree,
  listContactsOf,
  listHeldEnclosures,
  listStopped,
  moveToCentres,
  promiseToRing,
} from '#lib/db/ask-turn.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { lockForHolds } from '#lib/db/hold.ts'
import { revokeLinks } from '#lib/db/link.ts'
import { readNetworkTonight } from '#lib/db/snapshot.ts'
import { canFeed, feedsADay } from '#lib/domain/centre-word.ts'
import { type Answerer, answerersOf, canBeAsked, nextStep, type WhyNext } from '#lib/domain/escalation.ts'
import { doorAt } from '#lib/domain/hours.ts'
import type { CentreState, NetworkTonight } from '#lib/domain/network-state.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import { Failure, isFailure } from '#lib/kernel/failure.ts'
import { ASK_TURN } from '#lib/words/ask.ts'
import { mailTo } from './ask-mail.ts'

const MS_PER_MINUTE = 60_000
const NOTHING_DUE = 'nothing-due'

/** Who may move an ask on: the timer, whoever asks, whoever took the option. */
export type MayAsk = Grant<'system.run' | 'ask.put' | 'option.take'>

/** What a step needs to know of the network. */
export type AskNetwork = Pick<NetworkTonight, 'centres' | 'zone' | 'policy' | 'name' | 'linePhone'>

/** System: centres, zone and policy of this moment, without a forecast. */
export async function readAskNetwork(now: Date): Promise<AskNetwork> {
  return readNetworkTonight(demand(systemActor('asking'), 'system.run'), now)
}

/** System: one ask whose time ran out goes on by a step; false when none was free to. */
export async function goOnWithDue(now: Date): Promise<boolean> {
  const grant = demand(systemActor('ask lapsed'), 'system.run')
  if (!(await hasDueAsk(grant, now))) return false
  try {
    await inEntry(
      grant,
      { now, action: 'ask.lapse', subject: 'ask', subjectId: (id: number) => id, columns: ['state'] },
      async entry => {
        const id = await claimDueAsk(entry, now)
        if (id === undefined) throw new Failure('conflict', { rule: NOTHING_DUE })
        await goOn(grant, entry, await lockAsk(entry.tx, id), 'silent', now)
        return id
      },
    )
    return true
  } catch (thrown) {
    // Another process has it, or took it a moment ago: its step stands.
    if (isFailure(thrown) && thrown.code === 'conflict') return false
    throw thrown
  }
}

/** The next step of an ask whose locks are held: somebody else, another centre, or nobody any more. */
export async function goOn(
  grant: MayAsk,
  entry: EntryTx,
  ask: LockedAsk,
  why: WhyNext,
  now: Date,
): Promise<void> {
  const { tx } = entry
  if (ask.centreId === null || ask.decisionId === null) {
    const asked = ask.centreId !== null && (await askNextContact(grant, entry, ask, ask.centreId, now))
    if (asked) return
    await endAsk(tx, ask.id, { state: 'unanswered' })
    await revokeLinks(tx, { purpose: 'ask', askId: ask.id }, now)
    return
  }
  const network = await readAskNetwork(now)
  const turn = await getTurn(tx, ask.decisionId)
  const centre = network.centres.find(({ id }) => id === ask.centreId)
  const contacts = await listContactsOf(tx, ask.centreId)
  const rung = await listRung(tx, ask.id)
  const step = nextStep(
    {
      answerers: centre === undefined ? [] : answerersOf(centre, contacts, now, network.zone),
      rung,
      options: turn.ranked.options,
      takenKey: turn.takenKey,
      asked: await listAskedCentres(tx, ask.decisionId),
      barred: await listBarred(entry, ask.casualtyId, turn, network, now),
    },
    why,
  )
  if (step.kind === 'contact') {
    return putTo(grant, entry, {
      askId: ask.id,
      tryNo: rung.length + 1,
      answerer: step.answerer,
      network,
      now,
    })
  }
  await lockPlaces(entry, ask, step.kind === 'centre' ? step.option : null)
  if (why === 'silent') await endAsk(tx, ask.id, { state: 'unanswered' })
  await revokeLinks(tx, { purpose: 'ask', askId: ask.id }, now)
  await endHoldsAt(tx, ask.casualtyIds, ask.centreId, why === 'silent' ? 'expired' : 'given-up', now)
  const before = centre?.name ?? ''
  if (step.kind === 'centre')
    return askCentre(grant, entry, { ask, turn, option: step.option, network, why, before, now })
  await promiseToRing(tx, {
    callId: turn.callId,
    ownerId: turn.decidedBy,
    dueAt: now,
    what: ASK_TURN.nobodyLeft(before),
  })
}

/** Of a move between centres: the next who answers for the centre, until everybody was rung. */
async function askNextContact(
  grant: MayAsk,
  entry: EntryTx,
  { id: askId }: LockedAsk,
  centreId: number,
  now: Date,
): Promise<boolean> {
  const rung = await listRung(entry.tx, askId)
  if (rung.length === 0) return false
  const network = await readAskNetwork(now)
  const centre = network.centres.find(({ id }) => id === centreId)
  if (centre === undefined) return false
  const contacts = await listContactsOf(entry.tx, centreId)
  const answerer = answerersOf(centre, contacts, now, network.zone).find(({ phone }) => !rung.includes(phone))
  if (answerer === undefined) return false
  await putTo(grant, entry, { askId, tryNo: rung.length + 1, answerer, network, now })
  return true
}

type Put = {
  readonly askId: number
  readonly tryNo: number
  readonly answerer: Answerer
  readonly network: AskNetwork
  readonly now: Date
  /** Until when at least the answer is waited for; the policy's minutes unless given. */
  readonly until?: Date
}

/** Somebody is asked: a call to make with its number and timer, and a mail where there is an address. */
export async function putTo(
  grant: MayAsk,
  entry: EntryTx,
  { askId, tryNo, answerer, network, now, until = now }: Put,
): Promise<void> {
  const byPolicy = now.getTime() + network.policy.ask_lapse_minutes * MS_PER_MINUTE
  const lapsesAt = new Date(Math.max(byPolicy, until.getTime()))
  await createTry(entry.tx, askId, tryNo, answerer, { putAt: now, lapsesAt })
  if (answerer.email !== null)
    await mailTo(grant, entry.tx, { askId, tryNo, to: answerer.email, network, now })
}

type Asking = {
  readonly ask: LockedAsk
  readonly turn: DecidedTurn
  readonly option: PlacementOption
  readonly network: AskNetwork
  readonly why: WhyNext
  readonly before: string
  readonly now: Date
}

/** The next centre: its places are kept, the plan names it, it is asked, or agreed by its standing offer. */
async function askCentre(
  grant: MayAsk,
  entry: EntryTx,
  { ask, turn, option, network, why, before, now }: Asking,
): Promise<void> {
  const { tx } = entry
  const centre = network.centres.find(({ id }) => id === Number(option.to?.id))
  if (centre === undefined || ask.decisionId === null) return
  const because = why === 'silent' ? ASK_TURN.wasSilent(before) : ASK_TURN.saidNo(before)
  await keepPlaces(grant, tx, ask.casualtyIds, option, network, now)
  for (const casualtyId of ask.casualtyIds) {
    await moveToCentres(
      entry,
      casualtyId,
      because,
      option.path.map(stop => Number(stop.centre.id)),
    )
  }
  const isOffered = option.askFirst === null
  const lapsesAt = new Date(now.getTime() + network.policy.ask_lapse_minutes * MS_PER_MINUTE)
  const askId = await createAsk(tx, {
    to: { kind: 'centre', id: centre.id },
    casualtyId: ask.casualtyId,
    callId: ask.callId,
    referralId: null,
    turn: { decisionId: ask.decisionId, optionKey: option.key },
    putAt: now,
    lapsesAt,
    agreedBy: isOffered ? ASK_TURN.standingOffer : null,
  })
  await promiseToRing(tx, {
    callId: turn.callId,
    ownerId: turn.decidedBy,
    dueAt: isOffered ? now : lapsesAt,
    what: isOffered ? ASK_TURN.tellAgreed(centre.name) : ASK_TURN.tellAnswer(centre.name),
  })
  if (isOffered) return
  const [answerer] = answerersOf(centre, await listContactsOf(tx, centre.id), now, network.zone)
  await putTo(grant, entry, { askId, tryNo: 1, answerer, network, now })
}

/** A place each at the centre of an option; where none lets them the ask goes out all the same. */
export async function keepPlaces(
  _grant: MayAsk,
  tx: EntryTx['tx'],
  casualtyIds: readonly number[],
  option: PlacementOption,
  network: AskNetwork,
  now: Date,
): Promise<void> {
  const expectedAt = new Date(now.getTime() + (option.travel?.minutes ?? 0) * MS_PER_MINUTE)
  const expiresAt = new Date(expectedAt.getTime() + network.policy.hold_minutes * MS_PER_MINUTE)
  const enclosureIds = option.placesTonight.map(place => Number(place.enclosureId))
  for (const [at, casualtyId] of casualtyIds.entries()) {
    const own = enclosureIds[at]
    const wanted = [...new Set(own === undefined ? enclosureIds : [own, ...enclosureIds])]
    if (wanted.length === 0) return
    const needsIsolation = option.path[0]?.housing === 'isolation'
    await holdFirstFree(
      tx,
      { casualtyId, enclosureIds: wanted, startsAt: expectedAt, expectedAt, expiresAt, needsIsolation },
      now,
    )
  }
}

/** Everything that the places of both centres need, in the one order, before the first of them is written. */
async function lockPlaces(entry: EntryTx, ask: LockedAsk, option: PlacementOption | null): Promise<void> {
  await lockForHolds(entry, ask.casualtyIds, [
    ...(await listHeldEnclosures(entry.tx, ask.casualtyIds)),
    ...(option?.placesTonight ?? []).map(place => Number(place.enclosureId)),
  ])
}

/** Centres of the options that can't take it now: switched off, shut, stopped, full or out of hands by their own word. */
async function listBarred(
  { tx }: EntryTx,
  casualtyId: number,
  { ranked }: DecidedTurn,
  network: AskNetwork,
  now: Date,
): Promise<number[]> {
  const ids = [...new Set(ranked.options.filter(canBeAsked).map(({ to }) => Number(to?.id)))]
  const stopped = await listStopped(tx, casualtyId, ids, now)
  const { group, age } = await getFeeding(tx, casualtyId)
  const feeds = feedsADay(group, age)
  return ids.filter(id => {
    const centre = network.centres.find(one => one.id === id)
    const option = ranked.options.find(({ to }) => Number(to?.id) === id)
    return (
      centre === undefined ||
      stopped.includes(id) ||
      isShut(centre, option?.travel?.minutes ?? 0, feeds, network, now)
    )
  })
}

function isShut(
  centre: CentreState,
  minutes: number,
  feeds: number,
  { zone }: AskNetwork,
  now: Date,
): boolean {
  const arrival = new Date(now.getTime() + minutes * MS_PER_MINUTE)
  const isFull = centre.noMoreUntil !== null && centre.noMoreUntil > arrival
  return isFull || !canFeed(centre.feeding, feeds, arrival) || doorAt(centre, arrival, zone).kind === 'shut'
}
