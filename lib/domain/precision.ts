/**
 * How well the time of an event is known: to the minute, within an hour, a day, the days around it.
 * Promise: the span holds the time itself; what is known to the minute has no span. Times are text
 * of the network's clock, `2026-11-26T08:00`, as forms send them.
 */
import { dateOfDay, dayOfDate } from './day.ts'

export const PRECISIONS = ['minute', 'hour', 'day', 'week'] as const
export type Precision = (typeof PRECISIONS)[number]

/** Between which instants something happened. */
export type Span = { readonly earliest: Date; readonly latest: Date }

/** When something happened, and the span in which it may lie where that is not known well. */
export type Occurred = {
  readonly at: Date
  readonly earliest?: Date | undefined
  readonly latest?: Date | undefined
}

/** Half a week, in whole days, to either side. */
const DAYS_AROUND = 3
const LOCAL = /^(\d{4}-\d{2}-\d{2})T(\d{2}):\d{2}$/

/** Earliest and latest of a time as typed; nothing where no span is meant, or the text is no time. */
export function spanOf(
  typed: unknown,
  precision: unknown,
): { readonly earliest: string; readonly latest: string } | undefined {
  const [, date, hour] = (typeof typed === 'string' && LOCAL.exec(typed)) || []
  if (date === undefined || hour === undefined || Number.isNaN(Date.parse(`${date}T00:00Z`))) return undefined
  switch (precision) {
    case 'hour':
      return { earliest: `${date}T${hour}:00`, latest: `${date}T${hour}:59` }
    case 'day':
      return { earliest: `${date}T00:00`, latest: `${date}T23:59` }
    case 'week': {
      const day = dayOfDate(date)
      return {
        earliest: `${dateOfDay(day - DAYS_AROUND)}T00:00`,
        latest: `${dateOfDay(day + DAYS_AROUND)}T23:59`,
      }
    }
    default:
      return undefined
  }
}

/** A form with the span of its time; nothing typed is now, which may be "some time today". */
export function withSpan<T extends { readonly [name: string]: unknown }>(
  form: T,
  name: 'since' | 'at',
  now: string,
): T {
  const typed = form[name] || now
  const span = spanOf(typed, form['precision'])
  return span === undefined ? form : { ...form, [name]: typed, ...span }
}
