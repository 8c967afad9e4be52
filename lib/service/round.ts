/**
 * The Round: a centre in walking order with who is in, who is expected, what is closed or drying, and what is free.
 * Promise: everybody at the centre is on it once, in an enclosure or in the building; how many places an enclosure has
 * follows from who is in. Dates ahead are those of the one forecast. Days are day numbers.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand, may } from '#lib/authz/demand.ts'
import {
  type CentreChoice,
  getWalkedCentre,
  listRoundCentres,
  listShortAt,
  type WalkedCentre,
  type WalkedEnclosure,
} from '#lib/db/round.ts'
import {
  getMeanwhile,
  listRoundLines,
  listRoundWaiting,
  type Meanwhile,
  type RoundEntry,
  type RoundLine,
} from '#lib/db/round-entry.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import type { ClaimState, ResidentState } from '#lib/domain/network-state.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import type { ShortCause } from '#lib/domain/who-is-where.ts'
import { readTonight, type Tonight } from './network.ts'
import { type LineOfRound, lineOf } from './round-line.ts'
import { findStayAhead, type StayAhead } from './stay-ahead.ts'

export type RoundAnimal = {
  readonly id: number
  readonly reference: string
  readonly species: string
  readonly isAlone: boolean
  /** How it is to be handled: keys of the trade. */
  readonly handling: readonly string[]
  readonly short: ShortCause | null
  /** A departure that is booked. */
  readonly leavesAt: Date | null
  readonly isReady: boolean
  readonly ahead: StayAhead | undefined
  /** What can be tapped of it; undefined for whom the records moved a moment ago. */
  readonly line: LineOfRound | undefined
}

/** Two versions of one thing: what was tapped, and what had been recorded meanwhile. */
export type RoundConflict = { readonly tapped: RoundEntry; readonly meanwhile: Meanwhile }

export type RoundHold = {
  /** Who is expected, and the place that is kept; undefined for whoever is here already. */
  readonly coming: { readonly casualtyId: number; readonly placeNo: number | null } | undefined
  readonly reference: string | null
  readonly species: string | null
  readonly startsAt: Date
  readonly expectedAt: Date | null
}

export type RoundEnclosure = WalkedEnclosure & {
  readonly inside: readonly RoundAnimal[]
  readonly held: readonly RoundHold[]
  readonly closed: { readonly until: Date | null; readonly reason: string } | null
  readonly dryUntil: Date | null
  /** Places left for more of those who are in; of an empty enclosure, for the kind it holds most of. */
  readonly free: number
}

export type RoundRoom = {
  readonly id: number
  readonly name: string
  readonly kind: string
  readonly enclosures: readonly RoundEnclosure[]
}

export type Round = {
  readonly centre: Omit<WalkedCentre, 'rooms'>
  readonly today: DayNumber
  readonly zone: string
  readonly rooms: readonly RoundRoom[]
  /** In the building, in no enclosure that is walked. */
  readonly nowhere: readonly RoundAnimal[]
  readonly counts: {
    readonly inside: number
    readonly expected: number
    readonly emptyEnclosures: number
    readonly placesBeside: number
  }
  readonly mayCount: boolean
  readonly waiting: readonly RoundConflict[]
}

type Seen = {
  readonly lines: ReadonlyMap<number, RoundLine>
  readonly tonight: Tonight
  readonly now: Date
  readonly shorts: ReadonlyMap<number, ShortCause>
}

/** The centres to go round in; a carer has her own. */
export async function listRounds(actor: Actor): Promise<CentreChoice[]> {
  return listRoundCentres(demand(actor, 'round.read'))
}

/** One centre's round. Failure 'not-found' out of sight. */
export async function readRound(actor: Actor, centreId: number, now: Date): Promise<Round> {
  const grant = demand(actor, 'round.read', { centreIds: [centreId] })
  const [tonight, { rooms: walked, ...centre }, shorts, lines, waiting] = await Promise.all([
    readTonight(now),
    getWalkedCentre(grant, centreId),
    listShortAt(grant, centreId, now),
    listRoundLines(grant, centreId),
    listRoundWaiting(grant, centreId),
  ])
  const seen: Seen = { tonight, now, shorts, lines }
  const here = tonight.state.residents.filter(one => one.keeper === 'centre' && one.centreId === centreId)
  const rooms = walked.map(room => ({
    ...room,
    enclosures: room.enclosures.map(enclosure => enclosureOf(seen, enclosure, here)),
  }))
  const walkedIds = new Set(walked.flatMap(room => room.enclosures.map(({ id }) => id)))
  return {
    centre,
    today: tonight.today,
    zone: tonight.state.zone,
    rooms,
    nowhere: here
      .filter(one => one.enclosureId === null || !walkedIds.has(one.enclosureId))
      .map(one => animalOf(seen, one)),
    counts: countsOf(rooms, here.length),
    mayCount: may(actor, 'casualty.record', { centreIds: [centreId] }),
    waiting: await Promise.all(
      waiting.map(async tapped => ({ tapped, meanwhile: await getMeanwhile(grant, tapped) })),
    ),
  }
}

function countsOf(rooms: readonly RoundRoom[], inside: number): Round['counts'] {
  const all = rooms.flatMap(room => room.enclosures)
  const isOpen = (one: RoundEnclosure) => one.closed === null && one.dryUntil === null
  const isEmpty = (one: RoundEnclosure) => one.inside.length === 0 && one.held.length === 0
  return {
    inside,
    expected: all.reduce((sum, one) => sum + one.held.length, 0),
    emptyEnclosures: all.filter(one => isOpen(one) && isEmpty(one) && one.free > 0).length,
    placesBeside: all.reduce((sum, one) => sum + (isEmpty(one) ? 0 : one.free), 0),
  }
}

function enclosureOf(seen: Seen, enclosure: WalkedEnclosure, here: readonly ResidentState[]): RoundEnclosure {
  const { tonight, now } = seen
  const { state, trade } = tonight
  const claims = state.claims.filter(
    claim => claim.enclosureId === enclosure.id && (claim.endsAt === null || claim.endsAt > now),
  )
  const inside = here.filter(one => one.enclosureId === enclosure.id)
  const holds = claims.filter(({ kind }) => kind === 'hold')
  const shut = state.closures.find(
    one =>
      one.enclosureId === enclosure.id && one.startsAt <= now && (one.endsAt === null || one.endsAt > now),
  )
  const drying = claims
    .filter(one => one.kind === 'drying' && one.startsAt <= now)
    .map(({ endsAt }) => endsAt)
  const dryUntil = drying.reduce<Date | null>(
    (last, end) => (end !== null && (last === null || end > last) ? end : last),
    null,
  )
  return {
    ...enclosure,
    inside: inside.map(one => animalOf(seen, one)),
    held: holds.map(hold => {
      const resident = state.residents.find(({ id }) => id === hold.casualtyId)
      const isHere = here.some(({ id }) => id === resident?.id)
      return {
        coming:
          resident === undefined || isHere ? undefined : { casualtyId: resident.id, placeNo: hold.placeNo },
        reference: resident?.reference ?? null,
        species: resident === undefined ? null : speciesOf(trade, resident.species).common_name,
        startsAt: hold.startsAt,
        expectedAt: hold.expectedAt,
      }
    }),
    closed: shut === undefined ? null : { until: shut.endsAt, reason: shut.reason },
    dryUntil: shut === undefined ? dryUntil : null,
    free: shut === undefined ? freeIn(seen, enclosure, inside, holds) : 0,
  }
}

/** Places are those of the company that is in or expected; whoever must be alone leaves none. */
function freeIn(
  { tonight: { state } }: Seen,
  enclosure: WalkedEnclosure,
  inside: readonly ResidentState[],
  holds: readonly ClaimState[],
): number {
  const expected = holds.flatMap(hold => state.residents.find(({ id }) => id === hold.casualtyId) ?? [])
  const all = [...inside, ...expected]
  const [first] = all
  if (first === undefined) return enclosure.mostPlaces
  if (all.some(one => one.isAlone)) return 0
  const places = state.enclosures.find(({ id }) => id === enclosure.id)?.stocking[first.company] ?? 0
  return Math.max(0, places - all.length)
}

function animalOf({ tonight, shorts, lines, now }: Seen, resident: ResidentState): RoundAnimal {
  const { state, trade } = tonight
  const line = lines.get(resident.id)
  const species = speciesOf(trade, resident.species)
  const stay = state.claims.find(
    one => one.kind === 'stay' && one.casualtyId === resident.id && one.enclosureId === resident.enclosureId,
  )
  return {
    id: resident.id,
    reference: resident.reference,
    species: species.common_name,
    handling: species.handling_cautions,
    isAlone: resident.isAlone,
    short: shorts.get(resident.id) ?? null,
    leavesAt: stay?.endsAt ?? null,
    isReady: resident.ready !== null && resident.ready.no === (resident.began?.no ?? resident.stages[0]?.no),
    ahead: findStayAhead(tonight, resident.id),
    line: line === undefined ? undefined : lineOf(tonight, resident, line, now),
  }
}
