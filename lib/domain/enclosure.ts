/**
 * Enclosures as they are set up: housing type, size, features, who may be stocked, how long they dry.
 * Promise: what the schema accepts the table accepts; each company is stocked once. Metres, minutes, ranks 1 to 9.
 */
import { z } from 'zod'
import { WALKING_ORDER_MAX } from './centre.ts'
import { nameField } from './contact.ts'
import { filledEntries } from './form-rows.ts'
import { HOUSING_TYPES } from './housing.ts'
import { decimalText, integerText, listText } from './text.ts'

/** Features are words; those that a stage may ask for are "pool" and "flight", and a pool pen has a pool anyway. */
export const FEATURE_MAX = 40
export const FEATURES_MAX = 20
export const DRIES_AFTER = ['each', 'company'] as const
export const SIDE_MAX_M = 200
export const TURNAROUND_MAX_MIN = 60 * 1440
export const STOCK_MAX = 500
export const SIZE_RANK_MAX = 9

const side = z.number().positive().max(SIDE_MAX_M)

export const enclosureFields = {
  roomId: z.int().positive().meta({ title: 'Room' }),
  name: nameField.meta({ title: 'Name' }),
  housingType: z.enum(HOUSING_TYPES).meta({ title: 'Housing' }),
  sizeRank: z
    .int()
    .min(1)
    .max(SIZE_RANK_MAX)
    .meta({ title: 'Size rank', hint: 'Of the largest animal it suits' }),
  widthM: side.meta({ title: 'Width', unit: 'm' }),
  lengthM: side.meta({ title: 'Length', unit: 'm', hint: 'In an aviary: the length that can be flown' }),
  heightM: side.meta({ title: 'Height', unit: 'm' }),
  features: z.array(z.string().trim().min(1).max(FEATURE_MAX)).max(FEATURES_MAX).meta({ title: 'Features' }),
  turnaroundMin: z
    .int()
    .min(0)
    .max(TURNAROUND_MAX_MIN)
    .meta({ title: 'Cleaning and drying', unit: 'minutes' }),
  driesAfter: z.enum(DRIES_AFTER).meta({ title: 'Dries after' }),
  walkingOrder: z.int().min(0).max(WALKING_ORDER_MAX).meta({ title: 'Walking order' }),
  stocking: z
    .array(
      z.strictObject({
        company: z.string().min(1).meta({ title: 'Company' }),
        places: z.int().positive().max(STOCK_MAX).meta({ title: 'Places' }),
      }),
    )
    .refine(rows => new Set(rows.map(row => row.company)).size === rows.length, {
      params: { rule: 'stocking_company_once' },
    })
    .meta({ title: 'Who may be in' }),
}
export const enclosure = z.strictObject(enclosureFields)
export type Enclosure = z.infer<typeof enclosure>

/** Features that no enclosure has yet; those that are in use are ticked, so that one thing keeps one name. */
export const newFeaturesField = listText.pipe(enclosureFields.features).meta({
  title: 'Other features',
  hint: 'Only what is not among them, with semicolons between, such as sand bath; net roof',
})

const enclosureTyped = z.object({
  roomId: integerText.pipe(enclosureFields.roomId),
  name: enclosureFields.name,
  housingType: enclosureFields.housingType,
  sizeRank: integerText.pipe(enclosureFields.sizeRank),
  widthM: decimalText.pipe(side),
  lengthM: decimalText.pipe(side),
  heightM: decimalText.pipe(side),
  features: enclosureFields.features.default([]),
  newFeatures: newFeaturesField.default([]),
  turnaroundMin: integerText.pipe(enclosureFields.turnaroundMin),
  driesAfter: enclosureFields.driesAfter,
  walkingOrder: integerText.pipe(enclosureFields.walkingOrder),
  stocking: filledEntries(integerText.pipe(z.int().min(0).max(STOCK_MAX))).transform(rows =>
    // A nought says what an empty box says: none of them.
    rows.flatMap(([company, places]) => (places === 0 ? [] : [{ company, places }])),
  ),
})

export const enclosureForm = enclosureTyped
  .transform(({ newFeatures, ...enclosure }) => ({
    ...enclosure,
    features: [...new Set([...enclosure.features, ...newFeatures])],
  }))
  .check(({ value, issues }) => {
    if (value.features.length <= FEATURES_MAX) return
    const path = ['newFeatures']
    issues.push({
      code: 'too_big',
      origin: 'array',
      maximum: FEATURES_MAX,
      inclusive: true,
      input: value.features,
      path,
    })
  })
