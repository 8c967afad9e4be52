/**
 * From what was typed on the call sheet to the facts of the call.
 * Promise: nothing typed is refused or lost: words that name no animal, place or condition stay words, and what they
 * might mean is offered. A choice somebody made stands until the words it came from change.
 */
import { type CallFacts, callFacts, DANGERS } from './call-facts.ts'
import { CONDITIONS_MAX, COUNT_MAX } from './call-limits.ts'
import { SEVERITIES } from './care-plan.ts'
import { searchConditions } from './condition.ts'
import type { ConditionKnowledge, SpeciesKnowledge } from './knowledge.ts'
import { parse } from './parse.ts'
import { findWhere, searchPlaces } from './place.ts'
import { ANSWERS, OPEN_QUESTIONS, YES_NO_QUESTIONS } from './question.ts'
import { AGES, searchSpecies, standInFor } from './species.ts'
import type { Trade } from './trade.ts'
import { URGENCIES } from './urgency.ts'

/** A field of the sheet as a form sends it; lists end in `[]` there and arrive as lists. */
export type SheetInput = { readonly [field: string]: unknown }

/** Only scores further apart leave no doubt about which one is meant; what people call one kind is part of others' names. */
const CLEARLY_BETTER = 0.5
/** The score of a whole proper name. */
const ITS_NAME = 0
/** Up to here a finder's words name a condition; above, a letter was wrong or words are missing. */
const NAMED_SCORE_MAX = 1.5

/** The facts of a sheet as typed, given the facts it was read at and the trade's knowledge. */
export function readSheet(input: SheetInput, before: CallFacts, trade: Trade, now: Date): CallFacts {
  const animalTyped = text(input['animalTyped'])
  const species = speciesFrom(animalTyped, text(input['species']), before, trade)
  const whereTyped = text(input['whereTyped'])
  const wrongTyped = text(input['wrongTyped'])
  const animalClass = species === null ? undefined : trade.speciesBySlug.get(species)?.class
  return parse(callFacts, {
    dangers: picked(input['dangers'], DANGERS),
    answers: answersFrom(input['answers']),
    told: toldFrom(input['told']),
    species,
    animalTyped,
    age: oneOf(text(input['age']), AGES) ?? 'unknown',
    count: countFrom(text(input['count'])),
    isBrood: isTicked(input['isBrood']),
    whereTyped,
    where: whereFrom(whereTyped, text(input['place']), trade),
    conditions: conditionsFrom(input, wrongTyped, before, trade, animalClass),
    wrongTyped,
    urgency: oneOf(text(input['urgency']), URGENCIES) ?? null,
    sinceWhen: text(input['sinceWhen']),
    happenedSince: text(input['happenedSince']),
    finderName: text(input['finderName']),
    finderPhone: text(input['finderPhone']),
    isCaught: !isTicked(input['seenOnly']),
    hasFinder: !isTicked(input['noFinder']),
    vetKeeps: vetFrom(input, before, now),
    outsideExamination: outsideFrom(input, before, now),
    authorityLeave: leaveFrom(input, before, now),
    notes: text(input['notes']),
  })
}

/**
 * Field by field, each question, danger and condition a field: what was changed from `seen` stands, the rest is what is
 * kept `now`.
 */
export function mergeSheets(seen: CallFacts, typed: CallFacts, now: CallFacts): CallFacts {
  return callFacts.parse({
    ...mergeFields(seen, typed, now),
    answers: mergeFields(seen.answers, typed.answers, now.answers),
    told: mergeFields(seen.told, typed.told, now.told),
    dangers: DANGERS.filter(danger =>
      mergeLists(seen.dangers, typed.dangers, now.dangers, one => one).includes(danger),
    ),
    conditions: mergeLists(seen.conditions, typed.conditions, now.conditions, one => one.slug).slice(
      0,
      CONDITIONS_MAX,
    ),
  })
}

/** Animals the typed words could mean, while they mean no single one; last, what stands in until that is known. */
export function speciesOffered(facts: CallFacts, trade: Trade, limit = 6): SpeciesKnowledge[] {
  if (facts.species !== null) return []
  const meant = searchSpecies(facts.animalTyped, trade.species, limit).map(hit => hit.item)
  const standIn = standInFor(meant, trade.species)
  return standIn === undefined ? meant : [...meant, standIn]
}

/** Places the typed words could mean, while they mean no single one. */
export function placesOffered(facts: CallFacts, trade: Trade, limit = 6) {
  return facts.where === null ? searchPlaces(facts.whereTyped, trade.places, limit).map(hit => hit.item) : []
}

/** Conditions in the order to offer them: chosen ones, what the words match, then the rest of the class by name. */
export function conditionsOffered(facts: CallFacts, trade: Trade): ConditionKnowledge[] {
  const animalClass = facts.species === null ? undefined : trade.speciesBySlug.get(facts.species)?.class
  const fits = (one: ConditionKnowledge) =>
    animalClass === undefined || one.applies_to === 'both' || one.applies_to === animalClass
  const chosen = facts.conditions.flatMap(({ slug }) => trade.conditionBySlug.get(slug) ?? [])
  const matched = searchConditions(facts.wrongTyped, trade.conditions, animalClass).map(hit => hit.item)
  const rest = trade.conditions.filter(fits)
  return [...new Map([...chosen, ...matched, ...rest].map(one => [one.slug, one])).values()]
}

type Fields = { readonly [field: string]: unknown }

function mergeFields(seen: Fields, typed: Fields, now: Fields): Fields {
  const isChanged = (field: string) => JSON.stringify(seen[field]) !== JSON.stringify(typed[field])
  const fields = new Set([...Object.keys(now), ...Object.keys(typed)])
  return Object.fromEntries(
    [...fields]
      .map(field => [field, isChanged(field) ? typed[field] : now[field]] as const)
      .filter(([, value]) => value !== undefined),
  )
}

/** Lists whose elements have a key: what one person added or took away, another's additions do not undo. */
function mergeLists<T>(
  seen: readonly T[],
  typed: readonly T[],
  now: readonly T[],
  keyOf: (one: T) => string,
): T[] {
  const keyed = (list: readonly T[]) => new Map(list.map(one => [keyOf(one), one]))
  const [before, mine, kept] = [keyed(seen), keyed(typed), keyed(now)]
  const isChanged = (key: string) => JSON.stringify(before.get(key)) !== JSON.stringify(mine.get(key))
  return [...new Set([...kept.keys(), ...mine.keys()])].flatMap(
    key => (isChanged(key) ? mine : kept).get(key) ?? [],
  )
}

/** The animal as typed unless a choice was made for these very words. */
function speciesFrom(typed: string, chosen: string, before: CallFacts, trade: Trade): string | null {
  const hits = searchSpecies(typed, trade.species, 2)
  const [best, next] = hits
  if (trade.speciesBySlug.has(chosen)) {
    const isOffered = searchSpecies(typed, trade.species, 12).some(hit => hit.item.slug === chosen)
    const isSame = typed === before.animalTyped || trade.speciesBySlug.get(chosen)?.common_name === typed
    if (isOffered || isSame || typed === '') return chosen
  }
  if (best === undefined) return null
  const isClear = next === undefined || best.score === ITS_NAME || next.score - best.score > CLEARLY_BETTER
  return isClear ? best.item.slug : null
}

function whereFrom(typed: string, chosen: string, trade: Trade) {
  const place = trade.places.find(one => String(one.id) === chosen)
  const found =
    place !== undefined && searchPlaces(typed, [place]).length > 0
      ? {
          how: 'gazetteer' as const,
          placeId: place.id,
          name: place.name,
          latitude: place.latitude,
          longitude: place.longitude,
        }
      : findWhere(typed, trade.places)
  if (found === undefined) return null
  return found.how === 'gazetteer' ? found : { ...found, name: null, placeId: null }
}

/** Ticked ones; words that were just typed tick what they name, once, so that unticking stands. */
function conditionsFrom(
  input: SheetInput,
  typed: string,
  before: CallFacts,
  trade: Trade,
  animalClass: 'bird' | 'mammal' | undefined,
): CallFacts['conditions'] {
  const ticked = list(input['conditions']).filter(slug => trade.conditionBySlug.has(slug))
  const [best, next] =
    typed === before.wrongTyped ? [] : searchConditions(typed, trade.conditions, animalClass)
  const isNamed =
    best !== undefined &&
    (best.score <= NAMED_SCORE_MAX || next === undefined) &&
    (next === undefined || next.score > best.score || ticked.length === 0)
  const slugs = [...new Set([...ticked, ...(isNamed ? [best.item.slug] : [])])].slice(0, CONDITIONS_MAX)
  const severities = record(input['severity'])
  return slugs.map(slug => ({ slug, severity: oneOf(text(severities[slug]), SEVERITIES) ?? null }))
}

function answersFrom(given: unknown): CallFacts['answers'] {
  const answers: Record<string, string> = {}
  const all = record(given)
  for (const question of YES_NO_QUESTIONS) {
    const answer = oneOf(text(all[question]), ANSWERS)
    if (answer !== undefined) answers[question] = answer
  }
  return answers
}

function toldFrom(given: unknown): CallFacts['told'] {
  const told: Record<string, string> = {}
  const all = record(given)
  for (const question of OPEN_QUESTIONS) {
    const words = text(all[question])
    if (words !== '') told[question] = words
  }
  return told
}

function vetFrom(input: SheetInput, before: CallFacts, now: Date): CallFacts['vetKeeps'] {
  const vetName = text(input['vetName'])
  if (vetName === '') return null
  const agreedAt = before.vetKeeps?.vetName === vetName ? before.vetKeeps.agreedAt : now.toISOString()
  return { vetName, agreedAt, keptBy: text(input['keptBy']) === 'practice' ? 'practice' : 'finder' }
}

function outsideFrom(input: SheetInput, before: CallFacts, now: Date): CallFacts['outsideExamination'] {
  const by = text(input['examinedBy'])
  if (by === '') return null
  const at = before.outsideExamination?.by === by ? before.outsideExamination.at : now.toISOString()
  return { at, by, words: text(input['examinedWords']) }
}

function leaveFrom(input: SheetInput, before: CallFacts, now: Date): CallFacts['authorityLeave'] {
  const words = text(input['leaveWords'])
  if (words === '') return null
  const at = before.authorityLeave?.words === words ? before.authorityLeave.at : now.toISOString()
  return { at, words }
}

function countFrom(typed: string): number {
  const count = Number.parseInt(typed, 10)
  return Number.isNaN(count) ? 1 : Math.min(Math.max(count, 1), COUNT_MAX)
}

function text(value: unknown): string {
  return typeof value === 'string' ? value.trim() : ''
}

function list(value: unknown): string[] {
  const values = Array.isArray(value) ? value : value === undefined ? [] : [value]
  return values.filter((one): one is string => typeof one === 'string')
}

function record(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? { ...value } : {}
}

function picked<T extends string>(value: unknown, known: readonly T[]): T[] {
  const given = list(value)
  return known.filter(one => given.includes(one))
}

function oneOf<T extends string>(value: string, known: readonly T[]): T | undefined {
  return known.find(one => one === value)
}

function isTicked(value: unknown): boolean {
  return value !== undefined && value !== ''
}
