/**
 * What a path costs everybody else: place-days short that the animals add over all classes, undamped.
 * Promise: within the horizon it equals the rise of the forecast's expected shortage once the animals are in it,
 * litter-mates by the exact formula, cleaning after them included. It is the network's cost, not their own risk.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { AddedShortage } from '#lib/domain/option.ts'
import type { PathStage } from '#lib/forecast/model.ts'
import type { Outlook, Walk } from './model.ts'

export const NO_SHORTAGE: AddedShortage = { withinHorizon: 0, beyond: 0, withoutHousing: 0 }

/**
 * Sums the path's pools over the horizon from day `fromDay` on.
 * `withinHorizon`: the classes that exist; `withoutHousing`: days in stages whose housing the centre lacks, to the end
 * of the stay; `beyond`: days after the horizon at its last day's price.
 */
export function addedShortage(
  outlook: Outlook,
  walk: Walk,
  path: readonly PathStage[],
  arrival: { readonly count: number; readonly entersOn: DayNumber; readonly fromDay: number },
): AddedShortage {
  const { count, entersOn, fromDay } = arrival
  let withinHorizon = 0
  for (const { poolId, need, presence } of outlook.occupancy(path, entersOn)) {
    withinHorizon += sumFrom(outlook.shortage(poolId, need, presence, count), fromDay)
  }
  let beyond = 0
  let withoutHousing = 0
  for (const [stage, { poolId, need }] of path.entries()) {
    const { present, daysBeyond } = walk[stage]!
    if (poolId === null) withoutHousing += count * (sumFrom(present, fromDay) + daysBeyond)
    else beyond += count * daysBeyond * outlook.prices(poolId, need, 1)[outlook.horizonDays - 1]!
  }
  return { withinHorizon, beyond, withoutHousing }
}

function sumFrom(days: Float64Array, fromDay: number): number {
  return days.subarray(fromDay).reduce((sum, value) => sum + value, 0)
}
