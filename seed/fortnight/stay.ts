/** What the generated history says of an animal, told to the services: where it is, its stages, how it ended. */
import { isFailure } from '#lib/kernel/failure.ts'
import { recordArrivalOfCard } from '#lib/service/casualty-change.ts'
import { holdPlace, releaseHold } from '#lib/service/hold.ts'
import { recordMoved, recordOutcome } from '#lib/service/record.ts'
import { recordReady, recordStageMoved } from '#lib/service/record-stay.ts'
import type { Moment } from '../history/moment.ts'
import type { Casualty, Change, Outcome, StageMark } from '../history/types.ts'
import { carerAt } from './actors.ts'
import type { Live } from './live.ts'

/** What is answered for each way in which a case ends. */
const ANSWERS: Readonly<Record<Outcome, { readonly alive: string; readonly whereNow: string }>> = {
  released: { alive: 'alive', whereNow: 'in the wild' },
  died: { alive: 'dead', whereNow: 'died by itself' },
  euthanased: { alive: 'dead', whereNow: 'euthanased by a vet' },
  'dead on arrival': { alive: 'dead', whereNow: 'dead when it came' },
  reunited: { alive: 'alive', whereNow: 'with its parents' },
  escaped: { alive: 'alive', whereNow: 'got away' },
  'transferred out': { alive: 'alive', whereNow: 'with somebody outside' },
}

/** Everything that one entry of the history holds; what the admission has said already is left out. */
export async function tellMoment(live: Live, moment: Moment, now: Date): Promise<void> {
  const hasArrived = new Set<Casualty>()
  for (const { casualty, change } of moment.facts) {
    if (moment.arrived.length > 0 && change.keeper === 'finder') continue
    if (moment.arrived.length > 0 && change.keeper === 'centre') {
      hasArrived.add(casualty)
      await tellArrival(live, casualty, change, now)
    } else await tellChange(live, casualty, change, now)
  }
  for (const { casualty, mark } of moment.marks) {
    // The first stage began with the arrival.
    if (hasArrived.has(casualty) && mark.kind === 'began' && mark.no === 1) continue
    await tellMark(live, casualty, mark, now)
  }
}

async function tellArrival(live: Live, casualty: Casualty, change: Change, now: Date): Promise<void> {
  const { centreId, enclosureId, placeNo, at } = change
  if (centreId === undefined) throw new RangeError('an arrival needs a centre, got none')
  const input = { since: new Date(at), centreId, enclosureId, placeNo }
  await recordArrivalOfCard(carerAt(centreId), live.idOf(casualty), input, now)
  live.isAt(casualty, centreId)
  live.count('arrivals')
  await giveBackHolds(live, casualty, now)
}

/** It went into another place than the one that was kept. */
async function giveBackHolds(live: Live, casualty: Casualty, now: Date): Promise<void> {
  const holds = await live.ids(
    `select id from claim where kind = 'hold' and state = 'live' and casualty_id = $1 order by id`,
    [live.idOf(casualty)],
  )
  for (const hold of holds) {
    await releaseHold(live.writerOf(casualty), hold, now)
    live.count('kept places given back')
  }
}

async function tellChange(live: Live, casualty: Casualty, change: Change, now: Date): Promise<void> {
  const id = live.idOf(casualty)
  const since = new Date(change.at)
  if (change.keeper === 'nobody') {
    const answers = ANSWERS[change.outcome ?? 'died']
    await recordOutcome(live.writerOf(casualty), id, { ...answers, since }, now)
    live.count('outcomes')
    return
  }
  if (change.keeper === 'centre' && change.centreId !== undefined) {
    const { centreId, enclosureId, placeNo } = change
    const input = { to: 'centre', since, centreId, enclosureId, placeNo }
    await recordMoved(carerAt(centreId), id, input, now)
    live.isAt(casualty, centreId)
  } else {
    await keepPlaceAhead(live, casualty, change, now)
    const input = { to: change.keeper, since, driverId: change.driverId }
    await recordMoved(live.writerOf(casualty), id, input, now)
    live.isAt(casualty, undefined)
  }
  live.count('moves')
}

/** Before a drive the place at its end is kept; what stands against that does not stop the drive. */
async function keepPlaceAhead(live: Live, casualty: Casualty, change: Change, now: Date): Promise<void> {
  const next = casualty.changes[casualty.changes.indexOf(change) + 1]
  if (next?.enclosureId === undefined || next.at <= now.getTime()) return
  const { enclosureId, placeNo, at } = next
  const input = { enclosureId, placeNo, startsAt: now, expectedAt: new Date(at) }
  try {
    await holdPlace(live.writerOf(casualty), live.idOf(casualty), input, now)
    live.count('places kept for a drive')
  } catch (thrown) {
    if (!isFailure(thrown) || thrown.rule === undefined) throw thrown
    live.count('places not kept for a drive')
  }
}

async function tellMark(live: Live, casualty: Casualty, mark: StageMark, now: Date): Promise<void> {
  const said = { stageNo: mark.no, at: new Date(mark.at) }
  const id = live.idOf(casualty)
  if (mark.kind === 'ready') await recordReady(live.writerOf(casualty), id, said, now)
  else await recordStageMoved(live.writerOf(casualty), id, said, now)
  live.count(mark.kind === 'ready' ? 'ready' : 'stages begun')
}
