/**
 * What makes the tight weeks of a class tight: what is shut, who is likely there by then, how many are still to come.
 * Promise: names closures and animals of the forecast; a week has one note, on its worst day. Days are day numbers,
 * `tight` are indices from today. Internal to lib/service: callers have asked permission.
 */
import { type DayNumber, weekdayOf } from '#lib/domain/day.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { expectedAnimals } from '#lib/forecast/expected-animals.ts'
import { getDemand, listClaimants, poolForecast } from '#lib/forecast/forecast.ts'
import type { WhyTight } from '#lib/words/weeks-why.ts'
import type { Tonight } from './network.ts'
import type { ShutDays } from './weeks-view.ts'
import { findResident, isInClass } from './weeks-who.ts'

const WEEK_DAYS = 7
/** How much likelier an animal must be than at the week's beginning to be named as coming. */
const COMES_FROM = 0.2
const COMERS_MAX = 3

export type WeekNote = { readonly day: DayNumber; readonly why: WhyTight }

/** No rows: a note for each week that has a tight day. */
export function weekNotes(
  tonight: Tonight,
  poolId: string,
  tight: readonly number[],
  shut: readonly ShutDays[],
): WeekNote[] {
  const { today, forecast } = tonight
  const demand = getDemand(forecast, poolId)
  const { shortByDay } = poolForecast(demand)
  const worstOf = (days: readonly number[]) =>
    days.reduce((worst, d) => ((shortByDay[d] ?? 0) > (shortByDay[worst] ?? 0) ? d : worst), days[0] ?? 0)
  const mondayOf = (d: number) => today + d - weekdayOf(today + d) + 1
  const mondays = [...new Set(tight.map(mondayOf))]
  const worstMonday = mondayOf(worstOf(tight))
  return mondays.map(monday => {
    const worst = worstOf(tight.filter(d => mondayOf(d) === monday))
    const { all, unknown } = expectedAnimals(demand, worst)
    return {
      day: today + worst,
      why: {
        isWorst: monday === worstMonday && mondays.length > 1,
        ...shutInWeek(shut, monday),
        comers: comersBy(tonight, poolId, worst, Math.max(0, monday - today)),
        animals: all,
        unknownAnimals: unknown,
      },
    }
  })
}

function shutInWeek(shut: readonly ShutDays[], monday: DayNumber) {
  const isIn = (day: DayNumber | null) => day !== null && day >= monday && day < monday + WEEK_DAYS
  const named = (of: (one: ShutDays) => boolean) => [
    ...new Set(shut.filter(of).map(({ enclosure }) => enclosure)),
  ]
  return {
    shuts: named(({ from }) => isIn(from)),
    opens: named(({ until }) => isIn(until)),
    stillShut: named(({ from, until }) => from < monday && (until === null || until >= monday + WEEK_DAYS)),
  }
}

/** Animals in care that are not there yet and become much likelier to need a place within the week. */
function comersBy(tonight: Tonight, poolId: string, worst: number, begin: number): string[] {
  const demand = getDemand(tonight.forecast, poolId)
  const before = new Map(
    listClaimants(demand, begin).map(({ casualtyId, probability }) => [casualtyId, probability]),
  )
  return listClaimants(demand, worst)
    .map(({ casualtyId, probability }) => ({ casualtyId, rise: probability - (before.get(casualtyId) ?? 0) }))
    .filter(({ rise }) => rise >= COMES_FROM)
    .sort((a, b) => b.rise - a.rise)
    .flatMap(({ casualtyId }) => {
      const resident = findResident(tonight, casualtyId)
      if (resident === undefined || isInClass(tonight, resident, poolId)) return []
      return [`${speciesOf(tonight.trade, resident.species).common_name.toLowerCase()} ${resident.reference}`]
    })
    .slice(0, COMERS_MAX)
}
