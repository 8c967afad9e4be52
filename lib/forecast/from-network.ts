/**
 * From the network of this moment to what the engine computes with.
 * Promise: one input for one revision and hour; the same network gives the same input. Names the animals that cannot
 * be forecast because they have no plan, so that a page can say so.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { NetworkState } from '#lib/domain/network-state.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { type InputMemory, newInputMemory, recallWorld, sameItinerary } from './input-memory.ts'
import { itineraryOf } from './itineraries.ts'
import type { ForecastInput, Itinerary } from './model.ts'
import type { Pools } from './pools.ts'

export type ForecastWindow = {
  readonly today: DayNumber
  readonly horizonDays: number
  readonly shareOfTodayLeft: number
  /** The instant the network is seen at. */
  readonly asAt: Date
}

export type ForecastBasis = {
  readonly input: ForecastInput
  readonly pools: Pools
  readonly itineraryById: ReadonlyMap<number, Itinerary>
  /** Casualties in care without a plan: in no forecast. */
  readonly unplannedIds: readonly number[]
}

/**
 * What the engine needs for `horizonDays` days from `today`: pools, every animal's way ahead, usual arrivals. With the
 * memory of earlier inputs, whatever is as it was then is the same object; without, it is equal.
 */
export function forecastInput(
  state: NetworkState,
  trade: Trade,
  window: ForecastWindow,
  memory: InputMemory = newInputMemory(),
): ForecastBasis {
  const { today, horizonDays, shareOfTodayLeft, asAt } = window
  const { pools, arrivals } = recallWorld(memory, state, trade, today, horizonDays)
  const itineraryById = new Map<number, Itinerary>()
  const unplannedIds: number[] = []
  for (const resident of state.residents) {
    const itinerary = itineraryOf(resident, state, trade, pools, today, asAt)
    if (itinerary === undefined) unplannedIds.push(resident.id)
    else itineraryById.set(resident.id, sameItinerary(memory, itinerary))
  }
  return {
    input: {
      today,
      horizonDays,
      shareOfTodayLeft,
      pools: pools.all,
      itineraries: [...itineraryById.values()],
      arrivals,
    },
    pools,
    itineraryById,
    unplannedIds,
  }
}
