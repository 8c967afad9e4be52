/**
 * The calendar of tight days: weeks from Monday, and the outline around each spell.
 * Promise: tight days that touch, in a row or above each other, share one outline; no edge is drawn inside a spell.
 * Units: day numbers; chances from 0 to 1.
 */
import { type DayNumber, weekdayOf } from '#lib/domain/day.ts'

export type CalendarCell = {
  readonly day: DayNumber
  /** None for days before today and after the forecast. */
  readonly chance: number | undefined
  readonly isTight: boolean
  /** The sides on which the spell's outline runs. */
  readonly edges: readonly ('top' | 'right' | 'bottom' | 'left')[]
}
export type CalendarWeek = { readonly monday: DayNumber; readonly cells: readonly CalendarCell[] }

export function weeksOf(today: DayNumber, shortByDay: readonly number[], tightFrom: number): CalendarWeek[] {
  const chanceOn = (day: DayNumber) => (day < today ? undefined : shortByDay[day - today])
  const isTight = (day: DayNumber) => (chanceOn(day) ?? 0) >= tightFrom
  const first = today - weekdayOf(today) + 1
  const count = Math.ceil((today + shortByDay.length - first) / 7)
  return Array.from({ length: count }, (_, week) => {
    const monday = first + 7 * week
    return { monday, cells: Array.from({ length: 7 }, (_, i) => cellOn(monday + i, chanceOn, isTight)) }
  })
}

function cellOn(
  day: DayNumber,
  chanceOn: (day: DayNumber) => number | undefined,
  isTight: (day: DayNumber) => boolean,
): CalendarCell {
  const own = isTight(day)
  const weekday = weekdayOf(day)
  const neighbours = {
    top: isTight(day - 7),
    right: weekday < 7 && isTight(day + 1),
    bottom: isTight(day + 7),
    left: weekday > 1 && isTight(day - 1),
  }
  const sides = ['top', 'right', 'bottom', 'left'] as const
  return {
    day,
    chance: chanceOn(day),
    isTight: own,
    edges: own ? sides.filter(side => !neighbours[side]) : [],
  }
}
