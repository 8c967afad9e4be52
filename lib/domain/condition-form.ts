/**
 * Conditions as setup changes them: plain words of finders, and what they map to.
 * Promise: what the form accepts the table accepts; questions come from the closed list that a call can ask.
 */
import { z } from 'zod'
import { CAUTIONS_OF_CONDITIONS } from './caution.ts'
import { QUARANTINES } from './condition.ts'
import { nameField } from './contact.ts'
import { MARK_MAX, markField } from './knowledge-form.ts'
import { OPEN_QUESTIONS, YES_NO_QUESTIONS } from './question.ts'
import { blankable, listText } from './text.ts'
import { URGENCIES } from './urgency.ts'

export const CONDITION_KINDS = ['reason', 'finding'] as const
export const APPLIES_TO = ['bird', 'mammal', 'both'] as const
const mark = blankable(z.string().trim().max(MARK_MAX))

export const conditionFields = {
  name: nameField.meta({ title: 'Name' }),
  kind: z.enum(CONDITION_KINDS).meta({ title: 'Kind' }),
  words: listText.pipe(z.array(z.string().max(80)).max(40)).meta({
    title: 'Finders say',
    hint: 'Plain words with semicolons between them; a call finds the condition by them',
  }),
  appliesTo: z.enum(APPLIES_TO).meta({ title: 'Of which animals' }),
  defaultUrgency: z.enum(URGENCIES).meta({ title: 'Usual urgency' }),
  markUrgency: markField,
  mayNeedSurgeon: blankable(z.string().trim().max(60)).meta({
    title: 'Skill of a surgeon it may need',
    hint: 'Such as orthopaedics or soft-tissue; empty for none. A vet decides.',
  }),
  markSurgeon: mark.meta({ title: 'Source of the skill' }),
  deadlineNote: blankable(z.string().trim().max(400)).meta({ title: 'What is known of a deadline' }),
  markDeadline: mark.meta({ title: 'Source of the deadline' }),
  quarantine: z.enum(QUARANTINES).meta({ title: 'Quarantine' }),
  markQuarantine: mark.meta({ title: 'Source of the quarantine' }),
  asksFirst: z
    .array(z.enum([...YES_NO_QUESTIONS, ...OPEN_QUESTIONS]))
    .default([])
    .meta({ title: 'A call asks first' }),
  cautions: z.array(z.enum(CAUTIONS_OF_CONDITIONS)).default([]).meta({ title: 'It calls for' }),
  markCautions: mark.meta({ title: 'Source of the cautions' }),
}
export const conditionForm = z.object(conditionFields)
export type ConditionValues = z.infer<typeof conditionForm>
