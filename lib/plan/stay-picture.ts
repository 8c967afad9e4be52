/**
 * When each stage begins and ends and what the ground under the stay ribbon looks like, for one path.
 * Promise: dates and chances are given *if the animal lives to need them* and the plan holds; a date after the
 * forecast's last day is null. Units: DayNumber, chances in [0, 1].
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { DayQuantiles, PathStop, Ribbon } from '#lib/domain/option.ts'
import type { PlacementQuestion, StageWalk, Walk } from './model.ts'
import type { StayTable } from './stay-table.ts'

/** Rounding in a cumulated distribution: 0.9 reached to within this counts as reached. */
const ROUNDING = 1e-9

/**
 * First days by which the stage is entered with probability 10, 25, 50, 75, 90 %, given that it is ever entered.
 * `today` is the day of index 0. All null where it is never entered.
 */
export function entryQuantiles({ entered, reachProbability }: StageWalk, today: DayNumber): DayQuantiles {
  const dayOf = (share: number): DayNumber | null => {
    if (reachProbability <= 0) return null
    const wanted = share * reachProbability - ROUNDING
    let cumulated = 0
    for (let day = 0; day < entered.length; day++) {
      cumulated += entered[day]!
      if (cumulated >= wanted && cumulated > 0) return today + day
    }
    return null
  }
  return { q10: dayOf(0.1), q25: dayOf(0.25), q50: dayOf(0.5), q75: dayOf(0.75), q90: dayOf(0.9) }
}

/** The stops of a path of centre indices, one a stage. */
export function pathStops(
  question: PlacementQuestion,
  table: StayTable,
  path: readonly number[],
): PathStop[] {
  const { animals, centres, today } = question
  return path.map((centreAt, stage) => {
    const { stage: name, needs } = animals.stages[stage]!
    const cost = table.stages[stage]![centreAt]!
    const { id, name: centre, homes } = centres[centreAt]!
    return {
      stage: name,
      centre: { id, name: centre },
      housing: (homes[stage]?.need ?? needs[0]).housing,
      from: entryQuantiles(table.walk[stage]!, today),
      until: entryQuantiles(table.walk[stage + 1]!, today),
      reachProbability: Math.min(1, table.walk[stage]!.reachProbability),
      chanceOfPlace: cost.chanceOfPlace,
      hasHousing: cost.hasHousing,
    }
  })
}

/** Index of the stage with the smallest chance of a proper place; the earlier one in a tie. */
export function weakestStop(stops: readonly PathStop[]): number {
  return stops.reduce(
    (weakest, stop, at) => (stop.chanceOfPlace < stops[weakest]!.chanceOfPlace ? at : weakest),
    0,
  )
}

/**
 * The ground from the first day of care to the day by which nine of ten are out (or the forecast's end): on each day
 * the chance of a proper place, averaged over the stages the animal can be in by then. A night at a practice is firm.
 */
export function ribbonOf(table: StayTable, path: readonly number[], today: DayNumber): Ribbon {
  const { walk, entersOn } = table
  const days = walk[0]!.entered.length
  const end = entryQuantiles(walk[path.length]!, today).q90
  const last = end === null ? days - 1 : end - today
  const first = entersOn - today
  const reached = walk.map(reachedByDay)
  const groundChance: number[] = []
  for (let day = first; day <= last; day++) {
    groundChance.push(day < table.arrivalDay ? 1 : groundOn(table, path, reached, day))
  }
  return { firstDay: entersOn, groundChance }
}

/** P(entered by day t | ever entered). */
function reachedByDay({ entered, reachProbability }: Walk[number]): Float64Array {
  const reached = new Float64Array(entered.length)
  if (reachProbability <= 0) return reached
  let cumulated = 0
  for (let day = 0; day < entered.length; day++) {
    cumulated += entered[day]! / reachProbability
    reached[day] = Math.min(1, cumulated)
  }
  return reached
}

function groundOn(
  table: StayTable,
  path: readonly number[],
  reached: readonly Float64Array[],
  day: number,
): number {
  let weight = 0
  let free = 0
  for (const [stage, centreAt] of path.entries()) {
    const there = Math.max(0, reached[stage]![day]! - reached[stage + 1]![day]!)
    weight += there
    free += there * table.stages[stage]![centreAt]!.chanceByDay[day]!
  }
  const lastStage = table.stages[path.length - 1]![path[path.length - 1]!]!
  return weight > 0 ? Math.min(1, Math.max(0, free / weight)) : lastStage.chanceByDay[day]!
}
