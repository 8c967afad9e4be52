import type { PlanCage, PlanOutdoors, PlanRoom } from '#app/_ui/plan/plan-data.ts'
import type { Round, RoundEnclosure, RoundRoom } from '#lib/service/round.ts'
import { eachWords, furtherPart, ROUND, roomSummary, runName, summaryOut } from '#lib/words/round.ts'
import { placesOf } from './places.ts'

/** Doors side by side on one shelf, so that a name and a ribbon fit on each. */
const ON_A_SHELF = 6

type Clock = Parameters<typeof placesOf>[1]

/** The rooms of a centre that are indoors, as walls of cages and rooms with doors. */
export function indoorRooms(round: Round, clock: Clock): PlanRoom[] {
  return round.rooms
    .filter(room => room.kind !== 'outdoors' && room.enclosures.length > 0)
    .flatMap(room => (room.kind === 'isolation' ? isolation(room, clock) : [wall(room, clock)]))
}

function wall(room: RoundRoom, clock: Clock): PlanRoom {
  return {
    kind: 'wall',
    id: `room-${room.id}`,
    name: room.name,
    summary: summaryOf(room.enclosures),
    shelves: chunked(foldEmpty(room.enclosures), ON_A_SHELF).map(part =>
      part.map(folded => cageOf(folded, clock)),
    ),
  }
}

/** A long row of isolation rooms is drawn in parts, each with its lobby. */
function isolation(room: RoundRoom, clock: Clock): PlanRoom[] {
  const parts = chunked(foldEmpty(room.enclosures), ON_A_SHELF)
  return parts.map((part, at) => ({
    kind: 'rooms',
    id: `room-${room.id}-${at + 1}`,
    name: at === 0 ? room.name : furtherPart(room.name),
    summary: at === 0 ? summaryOf(room.enclosures) : '',
    rooms: part.map(folded => cageOf(folded, clock)),
    ...(at === parts.length - 1 && { lobby: ROUND.lobby }),
  }))
}

function cageOf({ first, last, count }: Folded, clock: Clock): PlanCage {
  const places = placesOf(first, clock)
  return {
    id: `enclosure-${first.id}`,
    label: runName(first.name, last.name),
    width: Math.max(0.5, first.widthM),
    places: count === 1 ? places : places.map(place => ({ ...place, note: eachWords(count, first.free) })),
  }
}

/** What stands outdoors, room by room. */
export function outdoorRooms(
  round: Round,
  clock: Clock,
): { id: number; name: string; summary: string; enclosures: PlanOutdoors[] }[] {
  return round.rooms
    .filter(room => room.kind === 'outdoors' && room.enclosures.length > 0)
    .map(room => ({
      id: room.id,
      name: room.name,
      summary: summaryOf(room.enclosures),
      enclosures: foldEmpty(room.enclosures).map(folded => outdoorsOf(folded, clock)),
    }))
}

function outdoorsOf({ first: enclosure, last, count }: Folded, clock: Clock): PlanOutdoors {
  const { id, name, lengthM, widthM, housing, features, inside, held, free, closed } = enclosure
  const places = placesOf(enclosure, clock)
  const isEmpty = inside.length === 0 && held.length === 0
  return {
    id: `enclosure-${id}`,
    name: runName(name, last.name),
    lengthM: Math.max(lengthM, widthM),
    widthM: Math.min(lengthM, widthM),
    wall: housing === 'pool-pen' ? 'pool' : housing === 'outdoor-pen' ? 'fence' : 'aviary',
    roof: roofOf(housing, features),
    hasDoubleDoor: features.includes('double door'),
    summary: summaryOut(count, { inside: inside.length, free, isEmpty, isShut: closed !== null }),
    isShut: closed !== null,
    places: isEmpty && closed === null && enclosure.dryUntil === null ? [] : places,
  }
}

function roofOf(housing: RoundEnclosure['housing'], features: readonly string[]): PlanOutdoors['roof'] {
  if (features.includes('roofed')) return 'roofed'
  return housing === 'pool-pen' || housing === 'outdoor-pen' ? 'open' : 'netting'
}

function summaryOf(enclosures: readonly RoundEnclosure[]): string {
  const count = (is: (one: RoundEnclosure) => boolean) => enclosures.filter(is).length
  return roomSummary({
    free: count(isFree),
    held: count(one => one.held.length > 0),
    drying: count(one => one.dryUntil !== null),
    shut: count(one => one.closed !== null),
  })
}

/** One enclosure, or a run of empty neighbours alike, which is drawn once. */
type Folded = { readonly first: RoundEnclosure; readonly last: RoundEnclosure; readonly count: number }

/** So many empty neighbours stand as one. */
const FOLD_FROM = 3

function foldEmpty(enclosures: readonly RoundEnclosure[]): Folded[] {
  const runs: RoundEnclosure[][] = []
  for (const one of enclosures) {
    const run = runs.at(-1)
    if (run?.[0] !== undefined && isAlike(run[0], one)) run.push(one)
    else runs.push([one])
  }
  return runs.flatMap((run): Folded[] => {
    const [first] = run
    const last = run.at(-1)
    if (first !== undefined && last !== undefined && run.length >= FOLD_FROM) {
      return [{ first, last, count: run.length }]
    }
    return run.map(one => ({ first: one, last: one, count: 1 }))
  })
}

function isAlike(a: RoundEnclosure, b: RoundEnclosure): boolean {
  return (
    [a, b].every(isFree) &&
    headOf(a) === headOf(b) &&
    a.housing === b.housing &&
    a.free === b.free &&
    a.lengthM === b.lengthM &&
    a.widthM === b.widthM
  )
}

function isFree(one: RoundEnclosure): boolean {
  return (
    one.inside.length === 0 &&
    one.held.length === 0 &&
    one.closed === null &&
    one.dryUntil === null &&
    one.free > 0
  )
}

function headOf(enclosure: RoundEnclosure | undefined): string {
  return enclosure?.name.replace(/\s*\d+$/, '') ?? ''
}

function chunked<T>(all: readonly T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, at) =>
    all.slice(at * size, (at + 1) * size),
  )
}
