/**
 * When a door is open and who opens it otherwise: centres with their night door, practices with their night cover.
 * Promise: hours are minutes of the wall clock in the network's zone, so a door that opens at 08:00 does so on the
 * days when the clocks change too; hours that meet at midnight are one. Instants are Dates.
 */
import { TZDate } from '@date-fns/tz'
import { newRemember } from '#lib/kernel/remember.ts'
import { dateOfDay, dayOfInstant, startOfDay, weekdayOf } from './day.ts'

export const MINUTES_PER_DAY = 1440

/** Open from one minute of a weekday to another, `closesMinute` not included. Monday = 1 to Sunday = 7. */
export type OpeningHours = {
  readonly weekday: number
  readonly opensMinute: number
  readonly closesMinute: number
}

/** A week has no more to say after eight days: the eighth is the first weekday again. */
const DAYS_LOOKED_AT = 8

/** Who lets an animal in at this moment. `until` null: open round the clock. */
export type Door =
  | { readonly kind: 'open'; readonly until: Date | null }
  | { readonly kind: 'staffed'; readonly opens: Date | null }
  | { readonly kind: 'on-call'; readonly name: string; readonly phone: string; readonly opens: Date | null }
  | { readonly kind: 'shut'; readonly opens: Date | null }

export type CentreDoor = {
  readonly hours: readonly OpeningHours[]
  readonly nightDoor: 'staffed' | 'on-call' | 'shut'
  readonly nightName: string | null
  readonly nightPhone: string | null
}

/** Who opens a centre's door at an instant; on call without a name and number is shut. */
export function doorAt(centre: CentreDoor, at: Date, zone: string): Door {
  if (isOpenAt(centre.hours, at, zone)) return { kind: 'open', until: closesNext(centre.hours, at, zone) }
  const opens = opensNext(centre.hours, at, zone)
  if (centre.nightDoor === 'staffed') return { kind: 'staffed', opens }
  const { nightDoor, nightName: name, nightPhone: phone } = centre
  return nightDoor === 'on-call' && name !== null && phone !== null
    ? { kind: 'on-call', name, phone, opens }
    : { kind: 'shut', opens }
}

export type Cover =
  | { readonly kind: 'open'; readonly phone: string; readonly until: Date | null }
  | { readonly kind: 'night cover'; readonly phone: string; readonly opens: Date | null }
  | { readonly kind: 'shut'; readonly opens: Date | null }

export type PracticeDoor = {
  readonly hours: readonly OpeningHours[]
  readonly phone: string
  readonly hasNightCover: boolean
  readonly nightPhone: string | null
}

/** Whether a practice has a vet at an instant, and under which number. */
export function coverAt(practice: PracticeDoor, at: Date, zone: string): Cover {
  if (isOpenAt(practice.hours, at, zone)) {
    return { kind: 'open', phone: practice.phone, until: closesNext(practice.hours, at, zone) }
  }
  const opens = opensNext(practice.hours, at, zone)
  return practice.hasNightCover && practice.nightPhone !== null
    ? { kind: 'night cover', phone: practice.nightPhone, opens }
    : { kind: 'shut', opens }
}

/** Whether the hours say open at an instant. */
export function isOpenAt(hours: readonly OpeningHours[], at: Date, zone: string): boolean {
  const weekday = weekdayOf(dayOfInstant(at, zone))
  const minute = minuteOfDay(at, zone)
  return hours.some(one => one.weekday === weekday && one.opensMinute <= minute && minute < one.closesMinute)
}

/** The next instant at which a shut door opens by its hours; null if it never does. */
export function opensNext(hours: readonly OpeningHours[], at: Date, zone: string): Date | null {
  return spans(hours, at, zone).find(span => span.opens.getTime() > at.getTime())?.opens ?? null
}

/** The instant at which an open door shuts by its hours; null if it stays open all week. */
export function closesNext(hours: readonly OpeningHours[], at: Date, zone: string): Date | null {
  const all = spans(hours, at, zone)
  const now = all.find(span => span.opens.getTime() <= at.getTime() && at.getTime() < span.closes.getTime())
  const isLast = now !== undefined && now === all.at(-1)
  const isAllWeek = isLast && now.closes.getTime() - at.getTime() > (DAYS_LOOKED_AT - 2) * 86_400_000
  return now === undefined || isAllWeek ? null : now.closes
}

/** The instant of a minute of a day on the wall clock; a minute that the clocks skip is the one after the gap. */
export function instantOfMinute(day: number, minute: number, zone: string): Date {
  return new Date(instants(`${day}|${minute}|${zone}`, () => msOfMinute(day, minute, zone)))
}

/** Doors open at the same few minutes of the same few days, and a zone's clock is slow to ask. */
const instants = newRemember<number>(4096)

function msOfMinute(day: number, minute: number, zone: string): number {
  if (minute >= MINUTES_PER_DAY) return startOfDay(day + 1, zone).getTime()
  const [year = 1970, month = 1, date = 1] = dateOfDay(day).split('-').map(Number)
  return new TZDate(year, month - 1, date, Math.floor(minute / 60), minute % 60, 0, zone).getTime()
}

/** Minutes of the wall clock since midnight. */
export function minuteOfDay(at: Date, zone: string): number {
  const local = new TZDate(at.getTime(), zone)
  return local.getHours() * 60 + local.getMinutes()
}

/** Open spans from yesterday on, in order, those that touch joined. */
function spans(hours: readonly OpeningHours[], at: Date, zone: string): { opens: Date; closes: Date }[] {
  const today = dayOfInstant(at, zone)
  const joined: { opens: Date; closes: Date }[] = []
  for (let day = today - 1; day <= today + DAYS_LOOKED_AT; day++) {
    const ofDay = hours
      .filter(one => one.weekday === weekdayOf(day))
      .sort((a, b) => a.opensMinute - b.opensMinute)
    for (const one of ofDay) {
      const opens = instantOfMinute(day, one.opensMinute, zone)
      const closes = instantOfMinute(day, one.closesMinute, zone)
      const before = joined.at(-1)
      if (before !== undefined && before.closes.getTime() >= opens.getTime()) before.closes = closes
      else joined.push({ opens, closes })
    }
  }
  return joined
}
