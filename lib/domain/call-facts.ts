/**
 * The call sheet: what is known of a call, in the order in which a call goes.
 * Promise: an empty sheet is a sheet, every field has a value that means "not said"; three facts (animal, where, what
 * is wrong) are enough for a first answer. "Seen, not caught" and "no finder" are facts like others.
 */
import { z } from 'zod'
import {
  ANIMAL_TYPED_MAX,
  CONDITIONS_MAX,
  COUNT_MAX,
  FINDER_NAME_MAX,
  FINDER_PHONE_MAX,
  HAPPENED_SINCE_MAX,
  NOTES_MAX,
  TOLD_MAX,
  WHERE_TYPED_MAX,
  WRONG_TYPED_MAX,
} from './call-limits.ts'
import { SEVERITIES } from './care-plan.ts'
import { ANSWERS, OPEN_QUESTIONS, YES_NO_QUESTIONS } from './question.ts'
import { AGES } from './species.ts'
import { URGENCIES } from './urgency.ts'

export const DANGERS = ['road', 'rail', 'water', 'cliff', 'power line', 'height', 'trapped'] as const
export type Danger = (typeof DANGERS)[number]

const words = (max: number) => z.string().trim().max(max)

export const wherePoint = z.strictObject({
  how: z.enum(['coordinates', 'plus code', 'gazetteer', 'road']),
  latitude: z.number().min(-90).max(90),
  longitude: z.number().min(-180).max(180),
  name: words(WHERE_TYPED_MAX).nullable().default(null),
  placeId: z.int().nullable().default(null),
})

export const vetKeeps = z.strictObject({
  vetName: words(FINDER_NAME_MAX).min(1).meta({ title: 'Vet who agreed' }),
  agreedAt: z.iso.datetime().meta({ title: 'Agreed at' }),
  keptBy: z.enum(['finder', 'practice']).default('finder').meta({ title: 'Kept by' }),
})

export const outsideExamination = z.strictObject({
  at: z.iso.datetime(),
  by: words(FINDER_NAME_MAX).min(1).meta({ title: 'Examined outside by' }),
  words: words(TOLD_MAX).default(''),
})

export const authorityLeave = z.strictObject({
  at: z.iso.datetime(),
  words: words(TOLD_MAX).min(1).meta({ title: "The authority's words" }),
})

export const callFactsFields = {
  dangers: z.array(z.enum(DANGERS)).default([]).meta({ title: 'Danger where it is' }),
  answers: z.partialRecord(z.enum(YES_NO_QUESTIONS), z.enum(ANSWERS)).default({}),
  told: z.partialRecord(z.enum(OPEN_QUESTIONS), words(TOLD_MAX)).default({}),
  species: z.string().nullable().default(null).meta({ title: 'Animal' }),
  animalTyped: words(ANIMAL_TYPED_MAX)
    .default('')
    .meta({ title: 'Animal', hint: 'A few letters, or what it looks like' }),
  age: z.enum(AGES).default('unknown').meta({ title: 'Age' }),
  count: z.int().min(1).max(COUNT_MAX).default(1).meta({ title: 'How many', unit: 'animals' }),
  isBrood: z.boolean().default(false).meta({ title: 'They belong together' }),
  whereTyped: words(WHERE_TYPED_MAX)
    .default('')
    .meta({ title: 'Where', hint: 'Road, landmark, place, coordinates or plus code' }),
  where: wherePoint.nullable().default(null),
  conditions: z
    .array(z.strictObject({ slug: z.string().min(1), severity: z.enum(SEVERITIES).nullable().default(null) }))
    .max(CONDITIONS_MAX)
    .default([])
    .meta({ title: 'What is wrong' }),
  wrongTyped: words(WRONG_TYPED_MAX)
    .default('')
    .meta({ title: 'What is wrong', hint: "The finder's own words" }),
  urgency: z
    .enum(URGENCIES)
    .nullable()
    .default(null)
    .meta({ title: 'How urgent', hint: 'Empty: by what is wrong' }),
  sinceWhen: words(TOLD_MAX).default('').meta({ title: 'Found when' }),
  happenedSince: words(HAPPENED_SINCE_MAX)
    .default('')
    .meta({ title: 'What has happened since', hint: 'Fed, given water, moved, treated' }),
  finderName: words(FINDER_NAME_MAX).default('').meta({ title: 'Finder' }),
  finderPhone: words(FINDER_PHONE_MAX).default('').meta({ title: 'Phone' }),
  isCaught: z.boolean().default(true).meta({ title: 'Caught' }),
  hasFinder: z.boolean().default(true).meta({ title: 'Somebody is with it' }),
  vetKeeps: vetKeeps.nullable().default(null).meta({ title: 'A vet agrees to keep it till morning' }),
  outsideExamination: outsideExamination.nullable().default(null),
  authorityLeave: authorityLeave.nullable().default(null).meta({ title: "The authority's leave" }),
  notes: words(NOTES_MAX).default('').meta({ title: 'Notes' }),
}

export const callFacts = z.strictObject(callFactsFields)
export type CallFacts = z.infer<typeof callFacts>

export type MissingFact = 'animal' | 'where' | 'wrong'

/** An empty sheet. */
export function emptyCallFacts(): CallFacts {
  return callFacts.parse({})
}

/** Which of the three facts a first answer still needs, in the order they are asked. */
export function whatIsMissing(facts: Pick<CallFacts, 'species' | 'where' | 'conditions'>): MissingFact[] {
  const missing: MissingFact[] = []
  if (facts.species === null) missing.push('animal')
  if (facts.where === null) missing.push('where')
  if (facts.conditions.length === 0) missing.push('wrong')
  return missing
}
