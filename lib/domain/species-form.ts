/**
 * Species as setup changes them. Promise: what the form accepts the table accepts; class comes from the group and side
 * from the company, so neither can contradict the other. Grams, metres, months.
 */
import { z } from 'zod'
import { nameField } from './contact.ts'
import { SIDE_MAX_M, SIZE_RANK_MAX } from './enclosure.ts'
import { MARK_MAX, markField, reviewedOnField } from './knowledge-form.ts'
import { blankable, checkboxText, decimalText, integerText, listText } from './text.ts'

export const MASS_MAX_G = 1_000_000
export const ADULT_ALONE = ['yes', 'season', 'no'] as const

const NOTE_MAX = 400
const mark = blankable(z.string().trim().max(MARK_MAX))
const note = blankable(z.string().trim().max(NOTE_MAX))
const mass = z.number().positive().max(MASS_MAX_G)
const month = z.int().min(1).max(12)

export const speciesNumbers = {
  sizeRank: z.int().min(1).max(SIZE_RANK_MAX).meta({ title: 'Size rank', hint: '1 wren, 9 seal' }),
  massGLow: mass.meta({ title: 'Lightest adult', unit: 'g' }),
  massGHigh: mass.meta({ title: 'Heaviest adult', unit: 'g' }),
  flightLengthMinM: z
    .number()
    .positive()
    .max(SIDE_MAX_M)
    .meta({ title: 'Shortest flight it needs', unit: 'm' }),
  youngFromMonth: month.meta({ title: 'Young from month' }),
  youngToMonth: month.meta({ title: 'Young until month' }),
}

export const speciesFields = {
  commonName: nameField.meta({ title: 'Name' }),
  alsoCalled: listText
    .pipe(z.array(z.string().max(80)).max(20))
    .meta({ title: 'Also called', hint: 'In finders\u2019 words, with semicolons between them' }),
  scientificName: blankable(nameField).meta({ title: 'Scientific name' }),
  groupSlug: z.string().min(1).meta({ title: 'Group' }),
  companySlug: z.string().min(1).meta({ title: 'Company: whom it may share with' }),
  adultAlone: z.enum(ADULT_ALONE).meta({ title: 'Adults alone' }),
  isImprintRisk: checkboxText.meta({ title: 'Young may imprint on people: never raised alone' }),
  sizeRank: integerText.pipe(speciesNumbers.sizeRank),
  massGLow: blankable(decimalText.pipe(mass)),
  massGHigh: blankable(decimalText.pipe(mass)),
  massMark: markField,
  flightLengthMinM: blankable(decimalText.pipe(speciesNumbers.flightLengthMinM)),
  flightMark: mark.meta({ title: 'Source of the flight length' }),
  youngFromMonth: blankable(integerText.pipe(month)),
  youngToMonth: blankable(integerText.pipe(month)),
  youngMark: mark.meta({ title: 'Source of the months' }),
  handlingCautions: z.array(z.string()).default([]).meta({ title: 'Handling' }),
  licenceKeys: z.array(z.string()).default([]).meta({ title: 'Licence facts' }),
  licenceMark: mark.meta({ title: 'Source of the licence facts' }),
  reviewedOn: reviewedOnField,
  releaseSeasonNote: note.meta({ title: 'When it is released' }),
  note: note.meta({ title: 'Note' }),
}

export const speciesForm = z
  .object(speciesFields)
  .refine(one => one.massGLow === null || one.massGHigh === null || one.massGLow <= one.massGHigh, {
    path: ['massGHigh'],
    params: { rule: 'species_mass_in_order' },
  })
export type SpeciesValues = z.infer<typeof speciesForm>
