/**
 * The cell that a stage of care belongs to: what its lengths and exits are learned by, and found by in a forecast.
 * Promise: one key for a plan, a stage and, where the stage ends by a date, a season of admission. What ends by a date, a
 * moult, a migration or a weight before winter takes as long as the season leaves it, so there the season is part of it.
 */
import { type DayNumber, dateOfDay } from './day.ts'
import type { Readiness } from './estimate.ts'
import type { Exit } from './housing.ts'

export const SEASONS = ['winter', 'spring', 'summer', 'autumn'] as const
export type Season = (typeof SEASONS)[number]

/** Season of admission: those of the weather, by calendar month. Spring is March to May, winter December to February. */
export function seasonOf(day: DayNumber): Season {
  const month = Number(dateOfDay(day).slice(5, 7))
  return SEASONS[Math.floor((month % 12) / 3)] ?? 'winter'
}

/** The season that tells the cells of a stage apart; null where it makes no difference. */
export function seasonOfCell({ kind }: Pick<Readiness, 'kind'>, admittedOn: DayNumber): Season | null {
  return kind === 'date gate' ? seasonOf(admittedOn) : null
}

/** `stageNo`: from 1, as an animal's own copy of its plan counts. The order of the plans makes no difference. */
export function cellKey(planIds: readonly string[], stageNo: number, season: Season | null): string {
  const stage = `${[...planIds].sort().join('+')}|${stageNo}`
  return season === null ? stage : `${stage}|${season}`
}

/** The day on which the season after a day's begins. */
export function firstDayOfNextSeason(day: DayNumber): DayNumber {
  const [year = 1970, month = 1] = dateOfDay(day).split('-').map(Number)
  return Date.UTC(year, month - 1 + 3 - (month % 3), 1) / 86_400_000
}

/**
 * What records taught of the stages of one cell, over `days` days: chances of a day of those in the stage. `died`,
 * `euthanased`, `left` by days since entry; `passes` by days since a date gate let pass, of those that none of the three
 * took. `beyond` shares among the exits, summing to 1, what has not ended by `days`. `run`: the learning that it is
 * from; one run has one such for a key.
 */
export type LearnedHazards = {
  readonly key: string
  readonly run: string
  readonly days: number
  readonly died: Float64Array
  readonly euthanased: Float64Array
  readonly left: Float64Array
  readonly passes: Float64Array
  readonly beyond: Readonly<Record<Exit, number>>
}
