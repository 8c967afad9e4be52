/**
 * The call sheet as a form, both ways: field names and text on one side, typed facts on the other.
 * Promise: reading a form written from facts gives the same facts; what is left empty is "not said". The place on the
 * map is not typed: whoever reads the form finds it from the words, or from the gazetteer place that was chosen.
 */
import { z } from 'zod'
import { type CallFacts, callFacts, DANGERS } from './call-facts.ts'
import { SEVERITIES } from './care-plan.ts'
import { parse } from './parse.ts'
import { ANSWERS, OPEN_QUESTIONS, YES_NO_QUESTIONS } from './question.ts'
import { AGES } from './species.ts'
import { blankable, checkboxText, integerText, localDateTimeText } from './text.ts'
import { URGENCIES } from './urgency.ts'

/** What a form says of a call: all facts but the place on the map. */
export type TypedCall = Omit<CallFacts, 'where'> & { readonly placeId: number | null }

const text = z.string().default('')
const choice = <const T extends readonly [string, ...string[]]>(values: T) => blankable(z.enum(values))

const typedFacts = callFacts.omit({ where: true })

function formOf(zone: string) {
  const instant = blankable(localDateTimeText(zone))
  return z.object({
    dangers: z.array(z.enum(DANGERS)).default([]),
    answers: z.partialRecord(z.enum(YES_NO_QUESTIONS), choice(ANSWERS)).default({}),
    told: z.partialRecord(z.enum(OPEN_QUESTIONS), text).default({}),
    species: text,
    animalTyped: text,
    age: z.enum(AGES).default('unknown'),
    count: blankable(integerText),
    isBrood: checkboxText,
    whereTyped: text,
    placeId: blankable(integerText),
    conditions: z.array(z.string()).default([]),
    severity: z.record(z.string(), choice(SEVERITIES)).default({}),
    wrongTyped: text,
    urgency: choice(URGENCIES),
    sinceWhen: text,
    happenedSince: text,
    finderName: text,
    finderPhone: text,
    isSeenOnly: checkboxText,
    isNobodyThere: checkboxText,
    vetKeeps: z.object({ vetName: text, agreedAt: instant, keptBy: keptByChoice() }).prefault({}),
    outsideExamination: z.object({ by: text, at: instant, words: text }).prefault({}),
    authorityLeave: z.object({ at: instant, words: text }).prefault({}),
    notes: text,
  })
}

/** The facts of a form; throws Failure('invalid') that names every field that does not fit. */
export function readCallForm(form: unknown, zone: string): TypedCall {
  const { severity, isSeenOnly, isNobodyThere, vetKeeps: vet, placeId, ...said } = parse(formOf(zone), form)
  const { outsideExamination: outside, authorityLeave: leave } = said
  const facts = parse(typedFacts, {
    ...said,
    answers: withoutEmpty(said.answers),
    told: withoutEmpty(said.told),
    species: said.species === '' ? null : said.species,
    count: said.count ?? 1,
    conditions: [...new Set(said.conditions)].map(slug => ({ slug, severity: severity[slug] ?? null })),
    isCaught: !isSeenOnly,
    hasFinder: !isNobodyThere,
    vetKeeps: isBlank(vet.vetName, vet.agreedAt)
      ? null
      : { vetName: vet.vetName, agreedAt: vet.agreedAt?.toISOString(), keptBy: vet.keptBy },
    outsideExamination: isBlank(outside.by, outside.at)
      ? null
      : { by: outside.by, at: outside.at?.toISOString(), words: outside.words },
    authorityLeave: isBlank(leave.words, leave.at)
      ? null
      : { at: leave.at?.toISOString(), words: leave.words },
  })
  return { ...facts, placeId }
}

/** What a form starts with, by field name; lists by names that end in `[]`. */
export function callFormValues(facts: CallFacts, zone: string): Record<string, readonly string[]> {
  const instant = (at: string | undefined) =>
    at === undefined ? '' : z.encode(localDateTimeText(zone), new Date(at))
  const single: Record<string, string> = {
    species: facts.species ?? '',
    animalTyped: facts.animalTyped,
    age: facts.age,
    count: String(facts.count),
    whereTyped: facts.whereTyped,
    placeId: facts.where?.placeId == null ? '' : String(facts.where.placeId),
    wrongTyped: facts.wrongTyped,
    urgency: facts.urgency ?? '',
    sinceWhen: facts.sinceWhen,
    happenedSince: facts.happenedSince,
    finderName: facts.finderName,
    finderPhone: facts.finderPhone,
    'vetKeeps.vetName': facts.vetKeeps?.vetName ?? '',
    'vetKeeps.agreedAt': instant(facts.vetKeeps?.agreedAt),
    'vetKeeps.keptBy': facts.vetKeeps?.keptBy ?? 'finder',
    'outsideExamination.by': facts.outsideExamination?.by ?? '',
    'outsideExamination.at': instant(facts.outsideExamination?.at),
    'outsideExamination.words': facts.outsideExamination?.words ?? '',
    'authorityLeave.at': instant(facts.authorityLeave?.at),
    'authorityLeave.words': facts.authorityLeave?.words ?? '',
    notes: facts.notes,
  }
  for (const [question, answer] of Object.entries(facts.answers)) single[`answers.${question}`] = answer
  for (const [question, words] of Object.entries(facts.told)) single[`told.${question}`] = words
  for (const { slug, severity } of facts.conditions) single[`severity.${slug}`] = severity ?? ''
  const ticks = { isBrood: facts.isBrood, isSeenOnly: !facts.isCaught, isNobodyThere: !facts.hasFinder }
  return {
    ...Object.fromEntries(Object.entries(single).map(([name, value]) => [name, [value]])),
    ...Object.fromEntries(Object.entries(ticks).flatMap(([name, is]) => (is ? [[name, ['on']]] : []))),
    'dangers[]': facts.dangers,
    'conditions[]': facts.conditions.map(one => one.slug),
  }
}

function keptByChoice() {
  return z.enum(['finder', 'practice']).default('finder')
}

function isBlank(words: string, at: Date | null): boolean {
  return words.trim() === '' && at === null
}

function withoutEmpty<T>(said: Readonly<Record<string, T | null | undefined>>): Record<string, T> {
  return Object.fromEntries(
    Object.entries(said).flatMap(([key, value]) =>
      value === null || value === undefined || value === '' ? [] : [[key, value]],
    ),
  )
}
