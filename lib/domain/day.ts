/**
 * Calendar days of the network, as whole numbers since 1 January 1970.
 * Promise: the difference of two day numbers is the number of midnights between them in the network's zone,
 * whatever the clocks did (Europe/Berlin 28 Mar 12:00 to 30 Mar 11:30 is 2). Refuses text that is no date.
 */
import { TZDate } from '@date-fns/tz'
import { newRemember } from '#lib/kernel/remember.ts'

/** Whole days since 1970-01-01 on the network's calendar. */
export type DayNumber = number
/** A civil date as text, `2026-11-25`. */
export type PlainDate = string

const MS_PER_DAY = 86_400_000

/** The day number of a civil date; throws RangeError on text that is no date. */
export function dayOfDate(date: PlainDate): DayNumber {
  const ms = Date.parse(`${date}T00:00:00Z`)
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date) || Number.isNaN(ms)) {
    throw new RangeError(`date needs the form yyyy-mm-dd, got ${date}`)
  }
  return Math.round(ms / MS_PER_DAY)
}

/** The civil date of a day number. */
export function dateOfDay(day: DayNumber): PlainDate {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10)
}

/** The calendar day on which an instant falls in a time zone. */
export function dayOfInstant(at: Date, zone: string): DayNumber {
  return days(`${at.getTime()}|${zone}`, () => {
    const local = new TZDate(at.getTime(), zone)
    return Math.round(Date.UTC(local.getFullYear(), local.getMonth(), local.getDate()) / MS_PER_DAY)
  })
}

/** Every reading asks for the days of the same arrivals and stages again, and a zone's clock is slow to ask. */
const days = newRemember<DayNumber>(8192)

/** The instant at which a day begins in a time zone. */
export function startOfDay(day: DayNumber, zone: string): Date {
  const ms = midnights(`${day}|${zone}`, () => {
    const date = new Date(day * MS_PER_DAY)
    return new TZDate(date.getUTCFullYear(), date.getUTCMonth(), date.getUTCDate(), 0, 0, 0, zone).getTime()
  })
  return new Date(ms)
}

const midnights = newRemember<number>(2048)

const MS_PER_MINUTE = 60_000
/** A clock that goes back does so within this of every time it says twice. */
const NEAR_MS = 4 * 3_600_000

/** Whether the clocks of a zone show this hour and minute twice that night, because they go back. */
export function isSaidTwice(at: Date, zone: string): boolean {
  const offset = (ms: number) => -new TZDate(ms, zone).getTimezoneOffset()
  const ms = at.getTime()
  const [before, after] = [offset(ms - NEAR_MS), offset(ms + NEAR_MS)]
  if (before <= after) return false
  const gap = (before - after) * MS_PER_MINUTE
  return offset(ms) === before ? offset(ms + gap) === after : offset(ms - gap) === before
}

/** The share of the day still to come at an instant, from 1 at midnight down towards 0. */
export function shareOfDayLeft(at: Date, zone: string): number {
  const day = dayOfInstant(at, zone)
  const from = startOfDay(day, zone).getTime()
  const until = startOfDay(day + 1, zone).getTime()
  return (until - at.getTime()) / (until - from)
}

/** Monday = 1 to Sunday = 7. */
export function weekdayOf(day: DayNumber): number {
  return ((((day + 3) % 7) + 7) % 7) + 1
}
