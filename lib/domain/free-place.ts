/**
 * Places that are free for an animal from a moment on, best first.
 * Promise: a place named here fits the need and meets no live claim from then on, so a hold on it is refused only if
 * somebody was quicker. Enclosures its own company already uses come first, then the preferred housing and the
 * smallest that is large enough, so that long and large ones stay free.
 */
import { isOrderedByFlight } from './housing.ts'
import { fitsEnclosure, type PlaceNeed, preferenceOf } from './need.ts'
import type { ClaimState, EnclosureState, NetworkState } from './network-state.ts'

export type FreePlace = {
  readonly enclosureId: number
  readonly placeNo: number
  readonly name: string
  readonly roomName: string
}

type Known = Pick<NetworkState, 'enclosures' | 'claims' | 'closures'>

/** The free places of one centre for a need, from `from` on. */
export function freePlaces(state: Known, centreId: number, need: PlaceNeed, from: Date): FreePlace[] {
  const later = state.claims.filter(claim => claim.endsAt === null || claim.endsAt > from)
  return state.enclosures
    .filter(enclosure => enclosure.centreId === centreId && fitsEnclosure(need, enclosure).length === 0)
    .map(enclosure => ({ enclosure, claims: later.filter(claim => claim.enclosureId === enclosure.id) }))
    .filter(
      ({ enclosure, claims }) => isOpenTo(need, enclosure, claims, later) && !isShut(state, enclosure, from),
    )
    .sort((a, b) => order(need, a, b))
    .flatMap(({ enclosure, claims }) =>
      freeNumbers(need, enclosure, claims).map(placeNo => ({
        enclosureId: enclosure.id,
        placeNo,
        name: enclosure.name,
        roomName: enclosure.roomName,
      })),
    )
}

/** Places left for more of its company beside an animal; none where it has no place itself, or is shut in. */
export function placesBeside(
  { enclosures, claims }: Pick<NetworkState, 'enclosures' | 'claims'>,
  { casualtyId, company }: { readonly casualtyId: number; readonly company: string },
  at: Date,
): number {
  const later = claims.filter(({ endsAt }) => endsAt === null || endsAt > at)
  const own = later.find(one => one.casualtyId === casualtyId && one.kind === 'stay' && one.startsAt <= at)
  if (own === undefined) return 0
  const here = later.filter(({ enclosureId }) => enclosureId === own.enclosureId)
  if (here.some(({ kind, startsAt }) => kind === 'closure' && startsAt <= at)) return 0
  const places = enclosures.find(({ id }) => id === own.enclosureId)?.stocking[company] ?? 0
  const taken = here.flatMap(({ kind, placeNo }) => (kind === 'stay' || kind === 'hold' ? [placeNo] : []))
  return Math.max(0, places - new Set(taken).size)
}

/** Nobody of another company in it, and where the room is marked, no predator beside prey. */
function isOpenTo(
  need: PlaceNeed,
  enclosure: EnclosureState,
  claims: readonly ClaimState[],
  all: readonly ClaimState[],
): boolean {
  if (claims.some(claim => claim.companyKey !== need.companyKey)) return false
  if (!enclosure.predatorsApart || need.preys === null) return true
  return !all.some(
    claim => claim.roomApartId === enclosure.roomId && claim.preys !== null && claim.preys !== need.preys,
  )
}

/** A closure that has not begun may have no claim on the place yet; a hold has no end, so it would meet it. */
function isShut(state: Known, enclosure: EnclosureState, from: Date): boolean {
  return state.closures.some(
    closure => closure.enclosureId === enclosure.id && (closure.endsAt === null || closure.endsAt > from),
  )
}

function freeNumbers(need: PlaceNeed, enclosure: EnclosureState, claims: readonly ClaimState[]): number[] {
  const places = need.companyKey.startsWith('alone:') ? 1 : (enclosure.stocking[need.company] ?? 0)
  const taken = new Set(claims.map(claim => claim.placeNo))
  if (taken.has(null)) return []
  return Array.from({ length: places }, (_, n) => n + 1).filter(n => !taken.has(n))
}

type Candidate = { readonly enclosure: EnclosureState; readonly claims: readonly ClaimState[] }

function order(need: PlaceNeed, a: Candidate, b: Candidate): number {
  return (
    preferenceOf(need, a.enclosure) - preferenceOf(need, b.enclosure) ||
    Number(a.claims.length === 0) - Number(b.claims.length === 0) ||
    sizeOf(a.enclosure) - sizeOf(b.enclosure) ||
    a.enclosure.id - b.enclosure.id
  )
}

function sizeOf(enclosure: EnclosureState): number {
  return isOrderedByFlight(enclosure.housing) ? enclosure.lengthM : enclosure.sizeRank
}
