/**
 * What a centre says of itself on its round: no more until a day, how many feeding rounds it can do.
 * Promise: every button says what a tap does; what was said names when it ends. Times by the network's clock.
 */
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { clockTime, nearDate, weekdayName } from './dates.ts'

export const CENTRE_WORD = {
  head: 'What we can take',
  note: 'One tap. Placement obeys at once, and it ends by itself.',
  noMore: 'No more until',
  takes: 'Takes animals as always',
  takeAgain: 'Take animals again',
  rounds: 'Feeding rounds we can do a day',
  roundsNote: 'Young that are fed by hand and need more are not offered here. It holds for a week.',
  anyRounds: 'As many feeding rounds as it takes',
  feedAgain: 'As many as it takes',
  said: 'Said. Placement obeys from now on',
} as const

/** "tomorrow", then the day of the week. */
export function dayButton(day: DayNumber, today: DayNumber): string {
  return day === today + 1 ? 'tomorrow' : weekdayName(day)
}

/** "No more until Tue 1 Dec, 08:00". */
export function noMoreWords(until: Date, now: Date, zone: string): string {
  return `No more until ${whenWords(until, now, zone)}`
}

/** "8 feeding rounds a day, until Sun 6 Dec, 08:00". */
export function roundsSaid(rounds: number, until: Date, now: Date, zone: string): string {
  const many = rounds === 0 ? 'No feeding by hand' : `${rounds} feeding rounds a day`
  return `${many}, until ${whenWords(until, now, zone)}`
}

/** On the button: "none", "8". */
export function roundsButton(rounds: number): string {
  return rounds === 0 ? 'none' : String(rounds)
}

function whenWords(until: Date, now: Date, zone: string): string {
  return `${nearDate(dayOfInstant(until, zone), dayOfInstant(now, zone))}, ${clockTime(until, zone)}`
}
