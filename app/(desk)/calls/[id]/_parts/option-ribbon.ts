import type { RibbonAxis, RibbonData, RibbonStage } from '#app/_ui/ribbon/ribbon-data.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import type { DayQuantiles, PathStop, PlacementOption } from '#lib/domain/option.ts'

const DAYS_MIN = 28
const DAYS_PER_WEEK = 7

/** The axis that all options of a list share: whole weeks from today to the latest likely end, at most the horizon. */
export function sharedAxis(
  options: readonly PlacementOption[],
  today: DayNumber,
  horizonDays: number,
): RibbonAxis {
  const ends = options.flatMap(option => option.path.map(stop => stop.until.q90 ?? today + horizonDays))
  const longest = Math.max(DAYS_MIN, ...ends.map(end => end - today + DAYS_PER_WEEK))
  const days = Math.min(Math.ceil(longest / DAYS_PER_WEEK) * DAYS_PER_WEEK, horizonDays)
  return { fromDay: today, days }
}

/** The ribbon of an option; undefined for one without a stay. */
export function ribbonOf(
  option: PlacementOption,
  today: DayNumber,
  horizonDays: number,
): RibbonData | undefined {
  const [first] = option.path
  if (option.ribbon === null || first === undefined) return undefined
  const last = today + horizonDays
  return {
    startDay: first.from.q50 ?? today,
    todayDay: today,
    stages: option.path.map((stop, at) => stageOf(stop, option.path[at - 1], option, last)),
    groundByDay: option.ribbon.groundChance.map(chance => 1 - chance),
    checks: [],
  }
}

function stageOf(
  stop: PathStop,
  before: PathStop | undefined,
  option: PlacementOption,
  last: DayNumber,
): RibbonStage {
  const hasMoved = before !== undefined && before.centre.id !== stop.centre.id
  const move = hasMoved ? option.moves.find(one => one.stage === stop.stage) : undefined
  return {
    stage: stop.stage,
    end: endOf(stop.until, last),
    chance: stop.chanceOfPlace,
    centre: stop.centre.name,
    kmOn: move?.km,
  }
}

/** What ends beyond the forecast is drawn to its last day. */
function endOf(until: DayQuantiles, last: DayNumber): RibbonStage['end'] {
  return {
    q10: until.q10 ?? last,
    q25: until.q25 ?? last,
    median: until.q50 ?? last,
    q75: until.q75 ?? last,
    q90: until.q90 ?? last,
  }
}
