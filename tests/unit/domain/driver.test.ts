import { describe, expect, test } from 'vitest'
import { driver, driverForm, readinessAt } from '#lib/domain/driver.ts'
import { driverTyped } from '#tests/support/setup-forms.ts'

const ZONE = 'Europe/London'
const EVENINGS = [{ weekday: 1, opensMinute: 17 * 60, closesMinute: 22 * 60 }]
/** 9 November 2026 is a Monday. */
const monday = (clock: string) => new Date(`2026-11-09T${clock}:00Z`)

describe('a driver', () => {
  test('is read from its form', () => {
    expect(driverForm.parse(driverTyped)).toEqual({
      name: 'Sorrel Wain',
      phone: '0300 7',
      area: 'The coast',
      vehicle: 'Estate car',
      hours: EVENINGS,
      drivesAtNight: true,
      note: '',
    })
  })

  test('has hours that do not overlap', () => {
    const twice = [...EVENINGS, { weekday: 1, opensMinute: 1200, closesMinute: 1400 }]
    const read = { ...driverForm.parse(driverTyped), hours: twice }
    expect(driver.safeParse(read).success).toBe(false)
  })
})

describe('when a driver can be rung', () => {
  const evenings = { hours: EVENINGS, drivesAtNight: false }
  const anyHour = { hours: [], drivesAtNight: false }

  test.each([
    ['18:00', evenings, 'in hours'],
    ['12:00', evenings, 'out of hours'],
    ['23:30', evenings, 'out of hours'],
    ['23:30', { ...evenings, drivesAtNight: true }, 'at night'],
    ['05:59', { ...evenings, drivesAtNight: true }, 'at night'],
    ['06:00', { ...evenings, drivesAtNight: true }, 'out of hours'],
    ['12:00', anyHour, 'in hours'],
    ['03:00', anyHour, 'out of hours'],
  ] as const)('at %s', (clock, who, said) => {
    expect(readinessAt(who, monday(clock), ZONE)).toBe(said)
  })
})
