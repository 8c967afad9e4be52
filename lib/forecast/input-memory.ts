/**
 * What one reading of the network leaves for the next: estimates, ways, pools and streams that have not changed.
 * Promise: what is recalled equals what would be made, since its key holds everything it is made from; so equal parts
 * of two readings are the same object, by which the forecast knows what it has computed. Bounded.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { NetworkState } from '#lib/domain/network-state.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { newRemember, type Remember } from '#lib/kernel/remember.ts'
import type { ArrivalStream, Itinerary, PathStage, StageEstimate } from './model.ts'
import { type NetworkPool, type Pools, poolsOf } from './pools.ts'
import { arrivalStreams } from './usual-arrivals.ts'

const ESTIMATES_MAX = 4096
const ITINERARIES_MAX = 4096
const POOLS_MAX = 1024
/** Of whole networks, the newest few: before and after a closure, a stop, midnight. */
const NETWORKS_MAX = 2

/** Treat as opaque. */
export type InputMemory = {
  readonly estimates: Remember<StageEstimate>
  readonly itineraries: Remember<Itinerary>
  world: World | undefined
}

/** What holds for one housing and one knowledge. */
type World = {
  readonly enclosures: NetworkState['enclosures']
  readonly trade: Trade
  readonly pool: Remember<NetworkPool>
  readonly pools: Remember<Pools>
  readonly arrivals: Remember<readonly ArrivalStream[]>
}

/** A memory that knows nothing yet. */
export function newInputMemory(): InputMemory {
  return {
    estimates: newRemember(ESTIMATES_MAX),
    itineraries: newRemember(ITINERARIES_MAX),
    world: undefined,
  }
}

/** The pools of the network and its usual arrivals, as poolsOf and arrivalStreams make them. */
export function recallWorld(
  memory: InputMemory,
  state: NetworkState,
  trade: Trade,
  today: DayNumber,
  horizonDays: number,
): { readonly pools: Pools; readonly arrivals: readonly ArrivalStream[] } {
  const world = worldOf(memory, state, trade)
  const { zone, closures, travel } = state
  const moment = [today, horizonDays, zone]
  const pools = world.pools(JSON.stringify([moment, closures]), () =>
    poolsOf(state, today, horizonDays, world.pool, trade.doubts),
  )
  const centres = state.centres.map(({ id, latitude, longitude, takes, stop }) => [
    id,
    latitude,
    longitude,
    takes,
    stop,
  ])
  const arrivals = world.arrivals(JSON.stringify([moment, state.arrivals, centres, travel]), () =>
    arrivalStreams(state, trade, pools, today, horizonDays).map(stream => ({
      ...stream,
      stages: sameEstimates(memory, stream.stages),
    })),
  )
  return { pools, arrivals }
}

/** The itinerary, or the earlier one with the same contents. */
export function sameItinerary(memory: InputMemory, itinerary: Itinerary): Itinerary {
  const stages = itinerary.stages.map(stage => ({ ...stage, estimate: named(stage.estimate) }))
  return memory.itineraries(JSON.stringify({ ...itinerary, stages }), () => ({
    ...itinerary,
    stages: sameEstimates(memory, itinerary.stages),
  }))
}

function sameEstimates(memory: InputMemory, stages: readonly PathStage[]): PathStage[] {
  return stages.map(stage => ({
    ...stage,
    estimate: memory.estimates(JSON.stringify(named(stage.estimate)), () => stage.estimate),
  }))
}

/** An estimate with the name of what was learned instead of its numbers: a run has one such for a cell. */
function named(estimate: StageEstimate) {
  const { learned } = estimate
  return learned === undefined ? estimate : { ...estimate, learned: [learned.run, learned.key] }
}

function worldOf(memory: InputMemory, { enclosures }: NetworkState, trade: Trade): World {
  const known = memory.world
  if (known?.enclosures === enclosures && known.trade === trade) return known
  const world = {
    enclosures,
    trade,
    pool: newRemember<NetworkPool>(POOLS_MAX),
    pools: newRemember<Pools>(NETWORKS_MAX),
    arrivals: newRemember<readonly ArrivalStream[]>(NETWORKS_MAX),
  }
  memory.world = world
  return world
}
