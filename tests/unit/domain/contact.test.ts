import { describe, expect, test } from 'vitest'
import {
  latitudeField,
  longitudeField,
  NAME_MAX,
  nameField,
  phoneField,
  weekHours,
} from '#lib/domain/contact.ts'

const rulesOf = (value: unknown) =>
  (weekHours('practice').safeParse(value).error?.issues ?? []).map(issue =>
    issue.code === 'custom' ? issue.params?.['rule'] : issue.code,
  )
const hours = (weekday: number, opensMinute: number, closesMinute: number) => ({
  weekday,
  opensMinute,
  closesMinute,
})

describe('opening hours', () => {
  test('may touch and may not overlap', () => {
    expect(rulesOf([hours(1, 480, 720), hours(1, 720, 1440), hours(2, 0, 720)])).toEqual([])
    expect(rulesOf([hours(1, 480, 721), hours(1, 720, 1440)])).toEqual(['practice_hours_not_overlapping'])
  })

  test('open before they close', () => {
    expect(rulesOf([hours(1, 480, 480)])).toEqual(['practice_hours_in_order'])
  })

  test('stay within the day and the week', () => {
    expect(rulesOf([hours(0, 0, 1440)])).toEqual(['too_small'])
    expect(rulesOf([hours(8, 0, 1440)])).toEqual(['too_big'])
    expect(rulesOf([hours(7, 0, 1441)])).toEqual(['too_big'])
  })
})

test('names, numbers and positions have limits', () => {
  expect([nameField.parse('  Fenmoor '), nameField.safeParse(' ').success]).toEqual(['Fenmoor', false])
  expect(nameField.safeParse('x'.repeat(NAME_MAX + 1)).success).toBe(false)
  expect(phoneField.safeParse('1').success).toBe(false)
  expect([90, 90.1].map(value => latitudeField.safeParse(value).success)).toEqual([true, false])
  expect([-180, -180.1].map(value => longitudeField.safeParse(value).success)).toEqual([true, false])
})
