/**
 * Seasons of species as setup changes them. Promise: what the form accepts the table accepts; a season of hibernation
 * has a weight, one of migration none. Days of the year, grams.
 */
import { z } from 'zod'
import { monthDay } from './estimate.ts'
import { markField } from './knowledge-form.ts'
import { SEASON_KINDS } from './season-gate.ts'
import { MASS_MAX_G } from './species-form.ts'
import { blankable, decimalText } from './text.ts'

const NOTE_MAX = 200

export const seasonFields = {
  species: z.string().min(1).meta({ title: 'Species' }),
  kind: z.enum(SEASON_KINDS).meta({ title: 'Kind' }),
  opens: monthDay.meta({ title: 'From', hint: 'Month and day, such as 04-01' }),
  closes: monthDay.meta({ title: 'Until', hint: 'That day too; it may lie after New Year' }),
  grams: blankable(decimalText.pipe(z.number().positive().max(MASS_MAX_G))).meta({
    title: 'Overwintered under',
    hint: 'For hibernation only',
    unit: 'g',
  }),
  mark: markField,
  note: z.string().trim().max(NOTE_MAX).default('').meta({ title: 'Note' }),
}
const { species, kind, ...changed } = seasonFields

export const seasonForm = z.object(changed)
export const newSeasonForm = seasonForm.extend({ species, kind })
export type SeasonTyped = z.infer<typeof seasonForm>
