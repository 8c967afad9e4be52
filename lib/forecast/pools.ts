/**
 * The pools of a network: enclosures of one housing type at one centre, by size, with what is usable each day.
 * Promise: an enclosure counts on a day unless a closure covers the midnight that ends it. Sizes are flight steps in
 * metres for aviaries, size ranks elsewhere. Days are whole days from `today` on.
 */
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { FLIGHT_STEPS_M, type HousingType, isOrderedByFlight } from '#lib/domain/housing.ts'
import { doubtFrom, type LearnedDoubt } from '#lib/domain/learned-doubt.ts'
import { fitsEnclosure, type PlaceNeed, sizedNeed } from '#lib/domain/need.ts'
import type { EnclosureState, NetworkState } from '#lib/domain/network-state.ts'
import { groupBy } from '#lib/kernel/group-by.ts'
import { newRemember, type Remember } from '#lib/kernel/remember.ts'
import type { Need, Pool, PoolStep } from './model.ts'

const MINUTES_PER_DAY = 1440

/** A pool with the enclosures it is made of. */
export type NetworkPool = Pool & { readonly enclosures: readonly EnclosureState[] }

/** The pools of a network by id, and for a need at a centre the pool that would serve it. */
export type Pools = {
  readonly byId: ReadonlyMap<string, NetworkPool>
  readonly all: readonly NetworkPool[]
}

export type Serving = { readonly poolId: string; readonly need: Need }

/** The id of the pool of a housing type at a centre. */
export function poolId(centreId: number, housing: HousingType): string {
  return `${centreId}:${housing}`
}

/**
 * All pools of the network over `horizonDays` days from `today`; a pool without a usable enclosure still exists.
 * Steps ascend by size; capacities are whole numbers of enclosures, at least 0. `remember` belongs to these enclosures
 * and doubts: with it a pool whose closures are as before keeps its identity. `doubts`: what records leave open.
 */
export function poolsOf(
  state: NetworkState,
  today: DayNumber,
  horizonDays: number,
  remember: Remember<NetworkPool> = (_, make) => make(),
  doubts: readonly LearnedDoubt[] = [],
): Pools {
  const byKey = groupBy(state.enclosures, one => poolId(one.centreId, one.housing))
  const all = [...byKey].map(([id, enclosures]) => {
    const ids = new Set(enclosures.map(one => one.id))
    const closures = state.closures.filter(one => ids.has(one.enclosureId))
    const key = JSON.stringify([id, closures, state.zone, today, horizonDays])
    return remember(key, () => {
      const pool = poolOf(id, enclosures, { closures, zone: state.zone }, today, horizonDays)
      return { ...pool, steps: pool.steps.map(step => doubted(id, step, doubts, today)) }
    })
  })
  return { all, byId: new Map(all.map(pool => [pool.id, pool])) }
}

/**
 * The pool of a centre that serves a need, by the need's order of preference; undefined where the centre has no
 * enclosure of that kind, size and company, free or not.
 */
export function findServing(pools: Pools, centreId: number, need: PlaceNeed): Serving | undefined {
  const remember = servings.get(pools) ?? newRemember(SERVINGS_MAX)
  servings.set(pools, remember)
  return remember(`${centreId}|${JSON.stringify(need)}`, () => seekServing(pools, centreId, need))
}

/** What was found in pools, since every animal of a kind asks the same. */
const servings = new WeakMap<Pools, Remember<Serving | undefined>>()
const SERVINGS_MAX = 4096

function seekServing(pools: Pools, centreId: number, need: PlaceNeed): Serving | undefined {
  for (const housing of need.housing) {
    const pool = pools.byId.get(poolId(centreId, housing))
    const only = { ...need, housing: [housing], needsIsolation: housing === 'isolation' }
    const fitting = pool?.enclosures.filter(enclosure => fitsEnclosure(only, enclosure).length === 0) ?? []
    if (pool !== undefined && fitting.length > 0) {
      const sized = sizedNeed(need, housing)
      return {
        poolId: pool.id,
        need: stepped({ ...sized, stock: stockIn(fitting, need, sized.stock) }, pool),
      }
    }
  }
  return undefined
}

/** How many of its company share an enclosure, as the stocking says; unlike ones count by their mean, rounded down. */
function stockIn(fitting: readonly EnclosureState[], need: PlaceNeed, usual: number): number {
  if (need.companyKey.startsWith('alone:')) return usual
  const places = fitting.reduce((sum, one) => sum + (one.stocking[need.company] ?? 0), 0)
  return Math.max(1, Math.floor(places / fitting.length))
}

/** The size class an enclosure counts in: the longest flight step it reaches, or its rank. */
export function sizeClassOf(enclosure: Pick<EnclosureState, 'housing' | 'sizeRank' | 'lengthM'>): number {
  if (!isOrderedByFlight(enclosure.housing)) return enclosure.sizeRank
  return (
    FLIGHT_STEPS_M.findLast(step => step <= enclosure.lengthM) ??
    Math.min(FLIGHT_STEPS_M[0], enclosure.lengthM)
  )
}

/** A need between two steps counts against the smallest step that truly serves it. */
function stepped(need: Need, pool: NetworkPool): Need {
  const fitting = pool.enclosures.filter(
    enclosure => (isOrderedByFlight(need.housing) ? enclosure.lengthM : enclosure.sizeRank) >= need.size,
  )
  const size = Math.min(...fitting.map(sizeClassOf))
  return Number.isFinite(size) ? { ...need, size } : need
}

function poolOf(
  id: string,
  enclosures: readonly EnclosureState[],
  state: Pick<NetworkState, 'closures' | 'zone'>,
  today: DayNumber,
  horizonDays: number,
): NetworkPool {
  const shut = closedDays(state, today, horizonDays)
  const bySize = groupBy(enclosures, sizeClassOf)
  const steps: PoolStep[] = [...bySize]
    .sort(([a], [b]) => a - b)
    .map(([size, same]) => ({
      size,
      capacityByDay: Int32Array.from({ length: horizonDays }, (_, d) =>
        same.reduce((count, one) => count + (shut.get(one.id)?.[d] === 1 ? 0 : 1), 0),
      ),
    }))
  const first = enclosures[0]!
  const turnaround = enclosures.reduce((sum, one) => sum + one.turnaroundMin, 0) / enclosures.length
  return {
    id,
    centreId: String(first.centreId),
    housing: first.housing,
    steps,
    turnaroundDays: Math.round(turnaround / MINUTES_PER_DAY),
    enclosures,
  }
}

function doubted(id: string, step: PoolStep, doubts: readonly LearnedDoubt[], today: DayNumber): PoolStep {
  const known = doubts.find(one => one.poolId === id && one.size === step.size)
  return known === undefined
    ? step
    : { ...step, doubtByDay: doubtFrom(known, today, step.capacityByDay.length) }
}

/** 1 for each day whose closing midnight lies in a closure, by enclosure. */
function closedDays(
  state: Pick<NetworkState, 'closures' | 'zone'>,
  today: DayNumber,
  horizonDays: number,
): ReadonlyMap<number, Uint8Array> {
  const shut = new Map<number, Uint8Array>()
  for (const closure of state.closures) {
    const days = shut.get(closure.enclosureId) ?? new Uint8Array(horizonDays)
    const from = Math.max(0, dayOfInstant(closure.startsAt, state.zone) - today)
    // It is usable again at the midnight that ends its last day.
    const until = closure.endsAt === null ? horizonDays : dayOfInstant(closure.endsAt, state.zone) - today
    days.fill(1, from, Math.max(from, Math.min(until, horizonDays)))
    shut.set(closure.enclosureId, days)
  }
  return shut
}
