/**
 * The chance that a proper place is free on the day an animal needs it, if it lives to need it.
 * Promise: sum over days of P(enters d | ever enters) (1 - price of d): the animal's own risk, apart from what it
 * costs the network. Days beyond the horizon are judged by the last one.
 */
import type { Forecast } from './forecast.ts'
import { price } from './forecast.ts'
import type { StageOccupancy } from './occupancy.ts'

/**
 * The chance in [0, 1] for a stage still to be entered; for the stage it is in, or expected in at once, today's
 * chance. 0 where the path has no such place. `without`: the casualty itself, when the forecast holds it.
 */
export function properPlaceChance(made: Forecast, stage: StageOccupancy, without?: string): number {
  if (stage.poolId === null) return 0
  const prices = price(made, stage.poolId, stage.need, without)
  return 1 - meanPrice(prices, stage)
}

/**
 * The price met on the day of entry, averaged over that day given that the stage is ever entered; today's for the
 * stage it is in. `prices` by day from today on.
 */
export function meanPrice(prices: Float64Array, stage: StageOccupancy): number {
  const { entersByDay, reachProbability } = stage
  const isHere = entersByDay.every(p => p === 0) && stage.presentByDay[0]! > 0
  if (isHere || reachProbability === 0) return prices[0]!
  const last = prices[prices.length - 1]!
  let sum = 0
  let entered = 0
  for (let d = 0; d < entersByDay.length; d++) {
    const p = entersByDay[d]! / reachProbability
    sum += p * (prices[d] ?? last)
    entered += p
  }
  return sum + Math.max(0, 1 - entered) * last
}
