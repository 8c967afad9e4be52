/**
 * What the call sheet offers beside what was typed: names to choose from, conditions, questions, how urgent it looks.
 * Promise: follows the sheet as it stands; nothing here is a rule, the answer is made by option.ts.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import type { CallFacts } from '#lib/domain/call-facts.ts'
import { conditionsOffered, placesOffered, speciesOffered } from '#lib/domain/call-sheet.ts'
import type { Severity } from '#lib/domain/care-plan.ts'
import { severitiesOf } from '#lib/domain/care-plan-choice.ts'
import type { ConditionKnowledge, Knowledge, SpeciesKnowledge } from '#lib/domain/knowledge.ts'
import { isScreened } from '#lib/domain/notifiable.ts'
import { CANNOT_WAIT, type Question, questionsFor } from '#lib/domain/question.ts'
import { standIns } from '#lib/domain/species.ts'
import type { Trade } from '#lib/domain/trade.ts'
import type { UrgencyFound } from '#lib/domain/urgency.ts'
import { judge } from '#lib/plan/newcomers.ts'
import { readTrade } from './network.ts'

export type SeverityAsked = {
  readonly condition: string
  readonly name: string
  readonly severities: readonly Severity[]
  readonly chosen: Severity | null
}

export type SheetOffer = {
  readonly species: SpeciesKnowledge | undefined
  readonly animalNames: readonly string[]
  readonly placeNames: readonly string[]
  readonly animalsOffered: readonly SpeciesKnowledge[]
  readonly placesOffered: readonly Knowledge['places'][number][]
  readonly standIns: readonly SpeciesKnowledge[]
  readonly conditions: readonly ConditionKnowledge[]
  readonly severities: readonly SeverityAsked[]
  readonly questionsFirst: readonly Question[]
  readonly questions: readonly Question[]
  readonly urgency: UrgencyFound
  /** A notifiable disease is suspected: who examined it outside and the authority's leave are asked. */
  readonly asksOutside: boolean
}

/** What to offer on a sheet. */
export async function offerSheet(actor: Actor, facts: CallFacts): Promise<SheetOffer> {
  demand(actor, 'call.read')
  const trade = await readTrade()
  const species = facts.species === null ? undefined : trade.speciesBySlug.get(facts.species)
  const chosen = facts.conditions.flatMap(({ slug }) => trade.conditionBySlug.get(slug) ?? [])
  const questions = questionsFor(chosen, { class: species?.class, isScreened: isScreened(species, chosen) })
  const isFirst = (question: Question) => CANNOT_WAIT.includes(question)
  const { notifiable, urgency } = judge(facts, trade)
  return {
    species,
    animalNames: [...new Set(trade.species.flatMap(one => [one.common_name, ...one.also_called]))],
    placeNames: [...new Set(trade.places.map(place => place.name))],
    animalsOffered: speciesOffered(facts, trade),
    placesOffered: placesOffered(facts, trade),
    standIns: standIns(trade.species),
    conditions: conditionsOffered(facts, trade),
    severities: severitiesAsked(facts, species, trade),
    questionsFirst: questions.filter(isFirst),
    // The sheet has fields of its own for these.
    questions: questions.filter(
      question => !isFirst(question) && question !== 'age' && question !== 'how-many',
    ),
    urgency,
    asksOutside: notifiable.state === 'suspected',
  }
}

function severitiesAsked(
  facts: CallFacts,
  species: SpeciesKnowledge | undefined,
  trade: Trade,
): SeverityAsked[] {
  if (species === undefined) return []
  const animal = { species: species.slug, group: species.group_slug, class: species.class, age: facts.age }
  return facts.conditions.flatMap(({ slug, severity }) => {
    const severities = severitiesOf(trade, animal, slug)
    const name = trade.conditionBySlug.get(slug)?.name ?? slug
    return severities.length < 2 ? [] : [{ condition: slug, name, severities, chosen: severity }]
  })
}
