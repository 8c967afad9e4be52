/**
 * Volunteer drivers as they are set up, and whether one can be rung for a drive at an instant.
 * Promise: what the schema accepts the table accepts; a driver without hours may be rung at any hour of the day, and at
 * night only one who drives at night.
 */
import { z } from 'zod'
import { aboutField, nameField, phoneField, weekHours, weekHoursForm } from './contact.ts'
import { isOpenAt, minuteOfDay, type OpeningHours } from './hours.ts'
import { checkboxText } from './text.ts'

export const AREA_MAX = 200
export const VEHICLE_MAX = 200

const NIGHT_BEGINS = 22 * 60
const NIGHT_ENDS = 6 * 60

export const driverFields = {
  name: nameField.meta({ title: 'Name' }),
  phone: phoneField.meta({ title: 'Phone' }),
  area: z.string().trim().max(AREA_MAX).default('').meta({
    title: 'Where they drive',
    hint: 'Places or roads, such as: Averbrook to the coast',
  }),
  vehicle: z.string().trim().max(VEHICLE_MAX).default('').meta({
    title: 'Vehicle',
    hint: 'What it takes, such as: estate car, a dog crate fits',
  }),
  hours: weekHours('driver'),
  drivesAtNight: z.boolean().meta({ title: 'Drives at night', hint: 'Between 22:00 and 06:00' }),
  note: aboutField.default('').meta({ title: 'Note' }),
}

export const driver = z.strictObject(driverFields)
export type Driver = z.infer<typeof driver>

export const driverForm = z.object({
  name: driverFields.name,
  phone: driverFields.phone,
  area: driverFields.area,
  vehicle: driverFields.vehicle,
  hours: weekHoursForm('driver'),
  drivesAtNight: checkboxText,
  note: driverFields.note,
})

export type DriverReadiness = 'in hours' | 'at night' | 'out of hours'

/** Whether a driver can be rung for a drive that starts at an instant. */
export function readinessAt(
  driver: { readonly hours: readonly OpeningHours[]; readonly drivesAtNight: boolean },
  at: Date,
  zone: string,
): DriverReadiness {
  const minute = minuteOfDay(at, zone)
  const isNight = minute >= NIGHT_BEGINS || minute < NIGHT_ENDS
  if (driver.hours.length > 0 && isOpenAt(driver.hours, at, zone)) return 'in hours'
  if (isNight) return driver.drivesAtNight ? 'at night' : 'out of hours'
  return driver.hours.length === 0 ? 'in hours' : 'out of hours'
}
