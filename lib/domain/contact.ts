/**
 * Fields that several kinds of place share: names, phone numbers, positions, opening hours.
 * Promise: one schema each, with its limits; hours of a weekday never overlap. Minutes of the wall clock, degrees.
 */
import { z } from 'zod'
import { filledRows } from './form-rows.ts'
import { MINUTES_PER_DAY } from './hours.ts'
import { clockText, integerText } from './text.ts'

export const NAME_MAX = 80
export const PHONE_MAX = 40
export const ABOUT_MAX = 400
export const HOURS_ROWS_MAX = 28

export const nameField = z.string().trim().min(1).max(NAME_MAX)
export const phoneField = z.string().trim().min(3).max(PHONE_MAX)
export const aboutField = z.string().trim().max(ABOUT_MAX)

export const latitudeField = z.number().min(-90).max(90).meta({ title: 'Latitude', unit: '°' })
export const longitudeField = z.number().min(-180).max(180).meta({ title: 'Longitude', unit: '°' })

export type HoursOwner = 'centre' | 'practice' | 'driver'

const hoursFields = z.strictObject({
  weekday: z.int().min(1).max(7).meta({ title: 'Day' }),
  opensMinute: z
    .int()
    .min(0)
    .max(MINUTES_PER_DAY - 1)
    .meta({ title: 'Opens' }),
  closesMinute: z.int().min(1).max(MINUTES_PER_DAY).meta({ title: 'Closes' }),
})
type Hours = z.infer<typeof hoursFields>

/** The hours of a week; its rules have the names of that table's. */
export function weekHours(owner: HoursOwner) {
  return z
    .array(hoursOfDay(owner))
    .max(HOURS_ROWS_MAX)
    .refine(rows => !rows.some((a, at) => rows.slice(at + 1).some(b => overlaps(a, b))), {
      params: { rule: `${owner}_hours_not_overlapping` },
    })
    .meta({ title: 'Hours' })
}

/** The same as a form sends them: a weekday and two clock times a line. */
export function weekHoursForm(owner: HoursOwner) {
  const line = z
    .object({ weekday: integerText, opensMinute: clockText, closesMinute: clockText })
    .pipe(hoursOfDay(owner))
  return filledRows(line).pipe(weekHours(owner))
}

function hoursOfDay(owner: HoursOwner) {
  return hoursFields.refine(hours => hours.opensMinute < hours.closesMinute, {
    path: ['closesMinute'],
    params: { rule: `${owner}_hours_in_order` },
  })
}

function overlaps(a: Hours, b: Hours): boolean {
  return a.weekday === b.weekday && a.opensMinute < b.closesMinute && b.opensMinute < a.closesMinute
}
