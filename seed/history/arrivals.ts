/** Arrivals at every centre, day by day: a Poisson count whose mean follows the season and how busy the day is. */
import { type DayNumber, dateOfDay, startOfDay, weekdayOf } from '#lib/domain/day.ts'
import type { Trade } from '#lib/domain/trade.ts'
import type { Random } from '#lib/kernel/random.ts'
import { CENTRES } from '../scenario/centres.ts'
import { GAZETTEER, kmApart } from '../scenario/geography.ts'
import { yearShapeOf } from '../scenario/year-shape.ts'
import { drawPatient, drawSpecies, type Patient } from './animal.ts'
import { drawIndex, drawLevel, drawOne, drawPoisson } from './draw.ts'
import { arrivalsTimes } from './truth.ts'
import type { Arrival } from './types.ts'

export type Coming = { readonly arrival: Arrival; readonly patients: readonly Patient[] }

/** Of 24 hours: when boxes come to the door. */
const HOURS: readonly (readonly [number, number])[] = [
  [7, 2],
  [8, 5],
  [9, 8],
  [10, 9],
  [11, 9],
  [12, 8],
  [13, 7],
  [14, 8],
  [15, 9],
  [16, 9],
  [17, 9],
  [18, 7],
  [19, 5],
  [20, 3],
  [21, 2],
  [22, 0.5],
]
const WEEKEND_TIMES = 1.15
/** Shape of the gamma by which days differ: the smaller, the more uneven. */
const EVENNESS = 6
const MS_PER_MINUTE = 60_000
const MINUTES_PER_HOUR = 60
/** A finder brings an animal mostly from near; kilometres over which the number falls to a third. */
const REACH_KM = 14

/** Everything that comes to the doors on one day, in no order; ids count on from `firstId`. */
export function drawDay(
  random: Random,
  trade: Trade,
  day: DayNumber,
  zone: string,
  firstId: number,
): Coming[] {
  const date = dateOfDay(day)
  const month = Number(date.slice(5, 7))
  const level = drawLevel(random, EVENNESS) * (weekdayOf(day) >= 6 ? WEEKEND_TIMES : 1)
  const midnight = startOfDay(day, zone).getTime()
  const comings: Coming[] = []
  CENTRES.forEach((centre, at) => {
    for (const [group, yearly] of Object.entries(centre.yearly)) {
      const events = drawPoisson(random, eventsPerDay(group, yearly, date) * level)
      for (let one = 0; one < events; one++) {
        const hour = drawOne(random, HOURS)
        const minute = Math.floor(random() * MINUTES_PER_HOUR)
        const place = drawOne(
          random,
          GAZETTEER.map(spot => [spot, Math.exp(-kmApart(spot.spot, centre.spot) / REACH_KM)]),
        )
        const arrival: Arrival = {
          id: firstId + comings.length,
          at: midnight + (hour * MINUTES_PER_HOUR + minute) * MS_PER_MINUTE,
          centreId: at + 1,
          spot: place.spot,
          foundWords: place.name,
        }
        comings.push({ arrival, patients: drawLitter(random, trade, group, month) })
      }
    }
  })
  return comings
}

/** Mean number of arrivals of a group at a centre on a date, before the level of the day. */
export function eventsPerDay(group: string, yearly: number, date: string): number {
  const { months, sizes } = yearShapeOf(group)
  const year = Number(date.slice(0, 4))
  const month = Number(date.slice(5, 7))
  const daysInMonth = new Date(Date.UTC(year, month, 0)).getUTCDate()
  const meanSize = sizes.reduce((sum, share, at) => sum + share * (at + 1), 0)
  return (yearly * arrivalsTimes(group) * (months[month - 1] ?? 0)) / daysInMonth / meanSize
}

function drawLitter(random: Random, trade: Trade, group: string, month: number): Patient[] {
  const size = drawIndex(random, yearShapeOf(group).sizes) + 1
  const species = drawSpecies(random, trade, group, month, size > 1)
  const pattern = drawPatient(random, trade, species, month, size > 1)
  const isLitter = size > 1 && pattern.animal.age === 'young'
  return Array.from({ length: isLitter ? size : 1 }, () => pattern)
}
