/**
 * What every stage of the stay would cost at every centre, undamped, for one way of arriving.
 * Promise: each entry is computed once, from the same walk, so that stage costs add up along any path. Costs speak of
 * the animals themselves; cleaning after them is counted in added-shortage.ts. Units: place-days, chances in [0, 1].
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { CentreNow, Outlook, PlacementQuestion, Walk } from './model.ts'

/**
 * `tonight`: admitted now. `after a vet`: care begins now at a practice, the centre receives it tomorrow.
 * `tomorrow`: care begins tomorrow.
 */
export type ArrivalMode = 'tonight' | 'after a vet' | 'tomorrow'

/** One stage at one centre. `hasHousing` false: every day there counts in full. */
export type StageAtCentre = {
  /** Expected places short on the day of arrival; 0 for later stages. */
  readonly onArrival: number
  /** Expected place-days short on all later days, those beyond the horizon at its last day's price. */
  readonly after: number
  /** Chance of a proper place on the day the animals need it, if they live to need it. */
  readonly chanceOfPlace: number
  /** The same for each day of the horizon. */
  readonly chanceByDay: Float64Array
  readonly hasHousing: boolean
}

export type StayTable = {
  readonly mode: ArrivalMode
  readonly entersOn: DayNumber
  /** Day of the horizon on which the first centre receives the animals. */
  readonly arrivalDay: number
  readonly walk: Walk
  /** `stages[stage][centre]`, centres in the order of the question. */
  readonly stages: readonly (readonly StageAtCentre[])[]
}

/**
 * Prices every stage at every centre. At least one stage and a horizon of two days. Whoever is in the first stage
 * already entered it on `enteredOn`; it is there today.
 * Throws RangeError when there is no stage.
 */
export function stayTable(
  question: PlacementQuestion,
  outlook: Outlook,
  mode: ArrivalMode,
  enteredOn = question.today,
): StayTable {
  const { animals, centres, today } = question
  if (animals.stages.length === 0) throw new RangeError('a stay needs a stage, got none')
  const entersOn = mode === 'tomorrow' ? today + 1 : Math.min(enteredOn, today)
  const walk = outlook.walk(
    animals.stages.map(stage => stage.estimate),
    entersOn,
  )
  const table = { mode, entersOn, arrivalDay: mode === 'tonight' ? 0 : 1, walk }
  const stages = animals.stages.map((_, stage) =>
    centres.map(centre => stageAtCentre(question, outlook, table, stage, centre)),
  )
  return { ...table, stages }
}

function stageAtCentre(
  { animals: { count } }: PlacementQuestion,
  outlook: Outlook,
  { mode, arrivalDay, walk }: Omit<StayTable, 'stages'>,
  stage: number,
  centre: CentreNow,
): StageAtCentre {
  const home = centre.homes[stage] ?? null
  const { present, daysBeyond } = walk[stage]!
  const pricesOf = (nth: number) => (home === null ? null : outlook.prices(home.poolId, home.need, nth))
  const days =
    home === null ? present.map(p => count * p) : outlook.shortage(home.poolId, home.need, present, count)
  const [cheapest, dearest] = [pricesOf(1), pricesOf(count)]
  const chanceByDay = present.map((_, day) => (dearest === null ? 0 : 1 - dearest[day]!))
  const free = Math.min(count, centre.freeTonight.length)
  const isTonight = stage === 0 && mode === 'tonight'
  if (isTonight) chanceByDay[0] = free / count
  let after = count * daysBeyond * (cheapest === null ? 1 : cheapest[outlook.horizonDays - 1]!)
  for (let day = stage === 0 ? arrivalDay + 1 : arrivalDay; day < days.length; day++) after += days[day]!
  return {
    onArrival: stage > 0 ? 0 : isTonight ? count - free : days[arrivalDay]!,
    after,
    chanceOfPlace: stage === 0 ? chanceByDay[arrivalDay]! : chanceOnEntry(walk, stage, chanceByDay),
    chanceByDay,
    hasHousing: home !== null,
  }
}

/** Chance of a place on the day of entry, averaged over the day given that the stage is ever entered. */
function chanceOnEntry(walk: Walk, stage: number, chanceByDay: Float64Array): number {
  const { entered, reachProbability } = walk[stage]!
  const atLast = chanceByDay[chanceByDay.length - 1]!
  if (reachProbability <= 0) return atLast
  let within = 0
  let free = 0
  for (let day = 0; day < entered.length; day++) {
    within += entered[day]!
    free += entered[day]! * chanceByDay[day]!
  }
  const beyond = Math.max(0, reachProbability - within)
  return Math.min(1, Math.max(0, (free + beyond * atLast) / (within + beyond)))
}

/** P(at least one of the animals ever enters the stage): they are moved together. */
export function moveProbability(count: number, reachProbability: number): number {
  return 1 - (1 - Math.min(1, reachProbability)) ** count
}

/** P(at least one of the animals is still in care when today ends). */
export function inCareTomorrow(count: number, walk: Walk): number {
  const present = walk.slice(0, -1).reduce((sum, stage) => sum + stage.present[0]!, 0)
  return moveProbability(count, present)
}
