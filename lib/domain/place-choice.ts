/**
 * The enclosures of a centre as a move would find them: free and fitting first, then those that are in use, then those
 * that do not fit, each with every reason.
 * Promise: reasons are data, none is left out; an animal never stands in its own way. A reason refuses nothing: what
 * has happened is recorded all the same.
 */
import { freePlaces } from './free-place.ts'
import type { HousingType } from './housing.ts'
import { fitsEnclosure, type Misfit, type PlaceNeed, preferenceOf } from './need.ts'
import type { ClaimState, EnclosureState, NetworkState } from './network-state.ts'

export type InTheWay = {
  readonly kind: 'closed' | 'drying' | 'company' | 'room' | 'full' | 'kept'
  /** Those who are in it, or for whom it is kept. */
  readonly references: readonly string[]
  /** Null: until further notice, or as long as they stay. */
  readonly until: Date | null
}

export type PlaceChoice = {
  readonly enclosureId: number
  readonly name: string
  readonly room: string
  readonly housing: HousingType
  readonly state: 'free' | 'in use' | 'does not fit'
  /** Places free at once for this animal; 0 unless it is free. */
  readonly free: number
  readonly misfits: readonly Misfit[]
  readonly inTheWay: readonly InTheWay[]
}

type Known = Pick<NetworkState, 'enclosures' | 'claims' | 'closures' | 'residents'>

/** Every enclosure of a centre for one animal's need at an instant. */
export function placeChoices(
  state: Known,
  centreId: number,
  need: PlaceNeed,
  { at, casualtyId }: { readonly at: Date; readonly casualtyId: number },
): PlaceChoice[] {
  const claims = state.claims.filter(
    claim => claim.casualtyId !== casualtyId && (claim.endsAt === null || claim.endsAt > at),
  )
  const others = { ...state, claims }
  const freeOf = new Map<number, number>()
  for (const { enclosureId } of freePlaces(others, centreId, need, at)) {
    freeOf.set(enclosureId, (freeOf.get(enclosureId) ?? 0) + 1)
  }
  const ranked = [...freeOf.keys()]
  return state.enclosures
    .filter(enclosure => enclosure.centreId === centreId)
    .map(enclosure => choiceOf(others, enclosure, need, at, freeOf.get(enclosure.id) ?? 0))
    .sort(
      (a, b) =>
        STATES.indexOf(a.state) - STATES.indexOf(b.state) ||
        ranked.indexOf(a.enclosureId) - ranked.indexOf(b.enclosureId) ||
        preference(need, a) - preference(need, b) ||
        a.enclosureId - b.enclosureId,
    )
}

const STATES: readonly PlaceChoice['state'][] = ['free', 'in use', 'does not fit']

/** Housing that is not on the list at all comes last. */
function preference(need: PlaceNeed, { housing }: PlaceChoice): number {
  const found = preferenceOf(need, { housing })
  return found < 0 ? need.housing.length : found
}

function choiceOf(
  state: Known,
  enclosure: EnclosureState,
  need: PlaceNeed,
  at: Date,
  free: number,
): PlaceChoice {
  const misfits = fitsEnclosure(need, enclosure)
  const { id, name, roomName: room, housing } = enclosure
  const common = { enclosureId: id, name, room, housing, free, misfits }
  if (free > 0) return { ...common, state: 'free', inTheWay: [] }
  return {
    ...common,
    state: misfits.length > 0 ? 'does not fit' : 'in use',
    inTheWay: inTheWayOf(state, enclosure, need, at),
  }
}

function inTheWayOf(state: Known, enclosure: EnclosureState, need: PlaceNeed, at: Date): InTheWay[] {
  const here = state.claims.filter(claim => claim.enclosureId === enclosure.id)
  const found: InTheWay[] = []
  const shut = state.closures.find(
    closure => closure.enclosureId === enclosure.id && (closure.endsAt === null || closure.endsAt > at),
  )
  if (shut !== undefined) found.push({ kind: 'closed', references: [], until: shut.endsAt })
  const drying = here.filter(({ kind }) => kind === 'drying')
  if (drying.length > 0) found.push({ kind: 'drying', references: [], until: latestEnd(drying) })
  const stays = here.filter(({ kind }) => kind === 'stay')
  const holds = here.filter(({ kind }) => kind === 'hold')
  const strangers = stays.filter(claim => claim.companyKey !== need.companyKey)
  const company = stays.filter(claim => claim.companyKey === need.companyKey)
  const say = (kind: InTheWay['kind'], claims: readonly ClaimState[]) => {
    if (claims.length > 0) found.push({ kind, references: namesOf(state, claims), until: latestEnd(claims) })
  }
  say('company', strangers)
  if (strangers.length === 0) say('full', company)
  say('kept', holds)
  say('room', enclosure.predatorsApart ? roomMates(state, enclosure, need) : [])
  return found
}

/** Those in the same room whom this animal hunts, or who hunt it. */
function roomMates(state: Known, enclosure: EnclosureState, need: PlaceNeed): ClaimState[] {
  if (need.preys === null) return []
  return state.claims.filter(
    claim =>
      claim.enclosureId !== enclosure.id &&
      claim.roomApartId === enclosure.roomId &&
      claim.preys !== null &&
      claim.preys !== need.preys,
  )
}

function namesOf({ residents }: Known, claims: readonly ClaimState[]): string[] {
  const names = claims.flatMap(claim => residents.find(({ id }) => id === claim.casualtyId)?.reference ?? [])
  return [...new Set(names)]
}

function latestEnd(claims: readonly ClaimState[]): Date | null {
  let latest: Date | null = null
  for (const { endsAt } of claims) {
    if (endsAt === null) return null
    if (latest === null || endsAt > latest) latest = endsAt
  }
  return latest
}
