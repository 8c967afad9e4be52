/**
 * What the pictures of the weeks ahead say: the fan, its small form, the calendar of tight days.
 * Promise: a chance always comes with its day and with what it is a chance of. Chances from 0 to 1, counts as they are.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { perCent, perCentSpoken } from './chance.ts'
import { longDate, shortDate, weekdayDate } from './dates.ts'

export const FAN_WORDS = {
  tenthAbove: '1 day in 10 above',
  tenthBelow: '1 day in 10 below',
  half: 'half the days in here',
  middle: 'middle, dashed',
  key: 'Thin steps: each night so far. Dark band: half the days. Pale band: 8 days in 10. Dashed: the middle. Heavy line: places. Hatched: more animals than places. Strip below: the chance that a place is free.',
  smallKey: 'Band: 8 days in 10. Line: places. Figure: the worst chance of being short, and when.',
  asTable: 'As a table, day by day',
  centre: 'Centre',
  room: 'room',
  day: 'Day',
  middleHead: 'Middle',
  rangeHead: '8 days in 10 between',
  placesHead: 'Places',
  shortHead: 'Chance of being short',
} as const

export const CALENDAR_WORDS = {
  caption: 'The chance of being short, day by day',
  week: 'Week',
  why: 'What makes it tight',
} as const

/** "14 places". */
export function placesWords(places: number): string {
  return places === 1 ? '1 place' : `${places} places`
}

/** "12 places while the north flight is re-netted". */
export function changeWords(places: number, reason: string | undefined): string {
  return reason === undefined ? placesWords(places) : `${placesWords(places)}, ${reason}`
}

/** "4 Jan: 12 places, north flight shut". */
export function changeLine(day: DayNumber, places: number, reason: string | undefined): string {
  return `${shortDate(day)}: ${changeWords(places, reason)}`
}

/** The fan in one sentence. */
export function fanSentence(fan: {
  readonly noun: string
  readonly now: number
  readonly places: number
  readonly worst: { readonly day: DayNumber; readonly chance: number } | undefined
  readonly lastDay: DayNumber
}): string {
  const start = `Now about ${number(fan.now)} ${fan.noun} for ${placesWords(fan.places)}`
  if (fan.worst === undefined) return `${start}; room on every day until ${longDate(fan.lastDay)}.`
  const chance = perCentSpoken(fan.worst.chance)
  return `${start}; worst on ${longDate(fan.worst.day)}, ${chance} chance of being short.`
}

/** "10" or "10.4". */
export function number(value: number): string {
  return String(Math.round(value * 10) / 10)
}

/** "9 to 13". */
export function rangeWords(from: number, to: number): string {
  return `${number(from)} to ${number(to)}`
}

/** "36 % 17 Jan" where it is tight. */
export function tightWords(
  chance: number,
  day: DayNumber,
): { readonly chance: string; readonly day: string } {
  return { chance: perCent(chance), day: shortDate(day) }
}

/** What a day of the calendar says to a screen reader, after its date. */
export function shortWords(chance: number): string {
  return `${perCentSpoken(chance)} chance of being short`
}

/** "week of 23 Nov". */
export function weekWords(monday: DayNumber): string {
  return `week of ${shortDate(monday)}`
}

/** "Mon 4 Jan" as the head of a note under the calendar. */
export function noteHead(monday: DayNumber): string {
  return `Week of ${weekdayDate(monday)}`
}
