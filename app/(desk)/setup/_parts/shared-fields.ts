/** Fields that several forms of setup share: hours, position, groups of animals. */
import { z } from 'zod'
import { latitudeField, longitudeField } from '#lib/domain/contact.ts'
import { clockText } from '#lib/domain/text.ts'
import { weekdayWords } from '#lib/words/setup.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { type FieldSpec, number, type Option } from './spec.ts'

const EMPTY_LINES = 3
const WEEKDAYS: readonly Option[] = [1, 2, 3, 4, 5, 6, 7].map(day => ({
  value: String(day),
  text: weekdayWords(day),
}))

type Hours = readonly {
  readonly weekday: number
  readonly opensMinute: number
  readonly closesMinute: number
}[]

/** Opening hours, one line each; a new place starts with a week of empty lines. */
export function hoursRows(hours: Hours | undefined): FieldSpec {
  const start = (hours ?? []).map(one => ({
    weekday: String(one.weekday),
    opensMinute: clockWords(one.opensMinute),
    closesMinute: clockWords(one.closesMinute),
  }))
  return {
    kind: 'rows',
    name: 'hours',
    label: SETUP_PAGE.hours,
    hint: SETUP_PAGE.hoursHint,
    cells: [
      { key: 'weekday', label: SETUP_PAGE.weekday, options: WEEKDAYS },
      { key: 'opensMinute', label: SETUP_PAGE.opens, inputMode: 'numeric' },
      { key: 'closesMinute', label: SETUP_PAGE.closes, inputMode: 'numeric' },
    ],
    start,
    empty: start.length === 0 ? WEEKDAYS.length : EMPTY_LINES,
  }
}

export function positionFields(
  place: { readonly latitude: number; readonly longitude: number } | undefined,
): FieldSpec[] {
  return [
    { ...number('latitude', latitudeField, place?.latitude), hint: SETUP_PAGE.latitudeHint },
    { ...number('longitude', longitudeField, place?.longitude), hint: SETUP_PAGE.longitudeHint },
  ]
}

type Group = { readonly id: string; readonly name: string }

export function groupChoices(
  name: string,
  label: string,
  groups: readonly Group[],
  start: readonly string[],
): FieldSpec {
  return {
    kind: 'choices',
    name,
    label,
    many: true,
    start,
    choices: groups.map(group => ({ value: group.id, label: group.name })),
    columns: 3,
  }
}

export function clockWords(minute: number): string {
  return z.encode(clockText, minute)
}
