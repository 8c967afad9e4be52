/**
 * Days and dates as people write them: "Thu 26 Nov", "26 November", "about 27 December".
 * Promise: a day number gives the same words on every machine (own month names, no locale data). Refuses nothing;
 * a year is added only where the caller asks for one. Units: whole days of the network's calendar.
 */
import {
  type DayNumber,
  dateOfDay,
  dayOfInstant,
  isSaidTwice,
  startOfDay,
  weekdayOf,
} from '#lib/domain/day.ts'
import type { Span } from '#lib/domain/precision.ts'

/** The names of the months, January first. */
export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const
const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const

/** The short names of the week's days, Monday first. */
export const WEEKDAY_HEADS = WEEKDAYS.map(name => name.slice(0, 3))

function partsOf(day: DayNumber): { year: number; month: string; date: number } {
  const [year = 0, month = 1, date = 1] = dateOfDay(day).split('-').map(Number)
  return { year, month: MONTHS[month - 1] ?? '', date }
}

/** "26 Nov". */
export function shortDate(day: DayNumber): string {
  const { month, date } = partsOf(day)
  return `${date} ${month.slice(0, 3)}`
}

/** "26 November". */
export function longDate(day: DayNumber): string {
  const { month, date } = partsOf(day)
  return `${date} ${month}`
}

/** "26 November 2026". */
export function dateWithYear(day: DayNumber): string {
  return `${longDate(day)} ${partsOf(day).year}`
}

/** "Thu 26 Nov". */
export function weekdayDate(day: DayNumber): string {
  return `${weekdayName(day).slice(0, 3)} ${shortDate(day)}`
}

/** "Thursday". */
export function weekdayName(day: DayNumber): string {
  return WEEKDAYS[weekdayOf(day) - 1] ?? ''
}

/** "today", "tomorrow", "yesterday", else "Thu 26 Nov". */
export function nearDate(day: DayNumber, today: DayNumber): string {
  if (day === today) return 'today'
  if (day === today + 1) return 'tomorrow'
  if (day === today - 1) return 'yesterday'
  return weekdayDate(day)
}

/** "3 to 22 Dec", "30 Nov to 4 Jan", or one date when both are the same day. */
export function dateSpan(from: DayNumber, until: DayNumber): string {
  if (from === until) return shortDate(from)
  const a = partsOf(from)
  const b = partsOf(until)
  const sameMonth = a.month === b.month && a.year === b.year
  return `${sameMonth ? a.date : shortDate(from)} to ${shortDate(until)}`
}

/** "23:43", by the clock of a time zone; in the hour that a night has twice "01:30 BST" and "01:30 GMT". */
export function clockTime(at: Date, zone: string): string {
  const time = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).format(at)
  return isSaidTwice(at, zone) ? `${time} ${zoneName(at, zone)}` : time
}

function zoneName(at: Date, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-GB', { timeZone: zone, timeZoneName: 'short' }).formatToParts(at)
  return parts.find(({ type }) => type === 'timeZoneName')?.value ?? ''
}

/** "Wed 25 Nov, 23:43". */
export function dayAndClock(at: Date, zone: string): string {
  return `${weekdayDate(dayOfInstant(at, zone))}, ${clockTime(at, zone)}`
}

/** When something happened, no better than it is known: "Wed 25 Nov, 23:43", "some time on Tue 9 Jun". */
export function whenWords(at: Date, within: Span | null, zone: string): string {
  return within === null ? dayAndClock(at, zone) : withinWords(within, zone)
}

/** Within which span it may lie: "some time on Tue 9 Jun" where that is a day. */
function withinWords({ earliest, latest }: Span, zone: string): string {
  const [from, until] = [dayOfInstant(earliest, zone), dayOfInstant(latest, zone)]
  const isWhole =
    earliest.getTime() === startOfDay(from, zone).getTime() &&
    latest.getTime() >= startOfDay(until + 1, zone).getTime() - MINUTE_MS
  if (isWhole && from === until) return `some time on ${weekdayDate(from)}`
  if (isWhole) return `some time between ${weekdayDate(from)} and ${weekdayDate(until)}`
  const last = from === until ? clockTime(latest, zone) : dayAndClock(latest, zone)
  return `some time between ${dayAndClock(earliest, zone)} and ${last}`
}

const MINUTE_MS = 60_000
