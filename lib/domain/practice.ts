/**
 * Partner practices and known places outside the network, as they are set up.
 * Promise: what the schemas accept the tables accept; night cover comes with a number.
 */
import { z } from 'zod'
import {
  aboutField,
  latitudeField,
  longitudeField,
  nameField,
  phoneField,
  weekHours,
  weekHoursForm,
} from './contact.ts'
import { blankable, checkboxText, decimalText } from './text.ts'

export const TAKES_WORDS_MAX = 200

const slug = z.string().min(1).max(80)

export const practiceFields = {
  name: nameField.meta({ title: 'Name' }),
  phone: phoneField.meta({ title: 'Phone' }),
  latitude: latitudeField,
  longitude: longitudeField,
  hours: weekHours('practice'),
  hasNightCover: z.boolean().meta({ title: 'Has a vet at night' }),
  nightPhone: phoneField.nullable().meta({ title: 'Night phone' }),
  sees: z.array(slug).meta({ title: 'Sees' }),
  note: aboutField.default('').meta({ title: 'Note' }),
}

const NIGHT_COVER = { path: ['nightPhone'], params: { rule: 'practice_night_cover_has_a_number' } }

export const practice = z.strictObject(practiceFields).refine(canBeRungAtNight, NIGHT_COVER)
export type Practice = z.infer<typeof practice>

export const practiceForm = z
  .object({
    name: practiceFields.name,
    phone: practiceFields.phone,
    latitude: decimalText.pipe(latitudeField),
    longitude: decimalText.pipe(longitudeField),
    hours: weekHoursForm('practice'),
    hasNightCover: checkboxText,
    nightPhone: blankable(phoneField),
    sees: practiceFields.sees.default([]),
    note: practiceFields.note,
  })
  .refine(canBeRungAtNight, NIGHT_COVER)

export const outsidePlace = z.strictObject({
  name: nameField.meta({ title: 'Name' }),
  phone: phoneField.meta({ title: 'Phone' }),
  takesWords: z.string().trim().min(1).max(TAKES_WORDS_MAX).meta({ title: 'What it takes' }),
  hoursWords: z.string().trim().min(1).max(TAKES_WORDS_MAX).meta({ title: 'Hours' }),
  latitude: latitudeField,
  longitude: longitudeField,
  takes: z.array(slug).meta({ title: 'Takes' }),
})

function canBeRungAtNight(one: {
  readonly hasNightCover: boolean
  readonly nightPhone: string | null
}): boolean {
  return !one.hasNightCover || one.nightPhone !== null
}
