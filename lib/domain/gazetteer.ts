/**
 * The gazetteer's places as they are set up: towns, roads, landmarks, with what else people call them.
 * Promise: what the form accepts the table accepts. A word holds no semicolon, which parts the words of a list.
 */
import { z } from 'zod'
import { latitudeField, longitudeField, nameField } from './contact.ts'
import { decimalText, listText } from './text.ts'

export const PLACE_KINDS = ['town', 'village', 'road', 'landmark', 'water'] as const
export type PlaceKind = (typeof PLACE_KINDS)[number]
export const ALSO_CALLED_MAX = 20
const WORD_MAX = 80

export const placeFields = {
  name: nameField.meta({ title: 'Name' }),
  kind: z.enum(PLACE_KINDS).meta({ title: 'Kind' }),
  alsoCalled: z
    .array(
      z
        .string()
        .trim()
        .min(1)
        .max(WORD_MAX)
        .regex(/^[^;]*$/),
    )
    .max(ALSO_CALLED_MAX)
    .meta({ title: 'Also called', hint: 'Words with semicolons between them' }),
  latitude: latitudeField,
  longitude: longitudeField,
}
export const place = z.strictObject(placeFields)
export type Place = z.infer<typeof place>

export const placeForm = z.object({
  name: placeFields.name,
  kind: placeFields.kind,
  alsoCalled: listText.pipe(placeFields.alsoCalled),
  latitude: decimalText.pipe(latitudeField),
  longitude: decimalText.pipe(longitudeField),
})
