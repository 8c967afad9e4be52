/**
 * The trade's knowledge, indexed for use: species by slug, groups, conditions, care plans as the domain reads them.
 * Promise: built once from a snapshot and never changed; a name that is not known throws.
 */
import { invariant } from '#lib/kernel/invariant.ts'
import type { CarePlan, PlanGroup } from './care-plan.ts'
import type { ConditionKnowledge, GroupKnowledge, Knowledge, SpeciesKnowledge } from './knowledge.ts'
import { carePlanOf, planGroupOf } from './knowledge-plan.ts'
import type { LearnedRates } from './learned-arrivals.ts'
import type { LearnedDoubt } from './learned-doubt.ts'
import type { LearnedHazards } from './stage-cell.ts'

export type Trade = {
  readonly revision: number
  readonly jurisdiction: string
  readonly species: readonly SpeciesKnowledge[]
  readonly groups: readonly GroupKnowledge[]
  readonly conditions: readonly ConditionKnowledge[]
  readonly planGroups: readonly PlanGroup[]
  readonly plans: readonly CarePlan[]
  readonly keys: Knowledge['keys']
  readonly places: Knowledge['places']
  readonly speciesBySlug: ReadonlyMap<string, SpeciesKnowledge>
  readonly groupBySlug: ReadonlyMap<string, GroupKnowledge>
  readonly conditionBySlug: ReadonlyMap<string, ConditionKnowledge>
  /** Arrivals learned from records, by group; empty until something was learned. */
  readonly arrivals: ReadonlyMap<string, LearnedRates>
  /** What records leave open of whole pools; none until something was learned. */
  readonly doubts: readonly LearnedDoubt[]
  /** What the network's own records say of stages, by cell; empty until something was learned. */
  readonly learned: ReadonlyMap<string, LearnedHazards>
  /** The run all of it is from; null until there was one. */
  readonly source: LearningSource | null
}

/** The learning run that knowledge is from: with the revision of the network, enough to compute a forecast again. */
export type LearningSource = { readonly run: number; readonly modelVersion: string; readonly seed: number }

/** What was learned of arrivals, and left open, and by which run. */
export type LearnedComing = {
  readonly source: LearningSource | null
  readonly rates: readonly LearnedRates[]
  readonly doubts: readonly LearnedDoubt[]
}

/** The knowledge of a snapshot with what was learned since, ready to look things up in. */
export function tradeOf(
  known: Knowledge,
  learned: readonly LearnedHazards[] = [],
  { source, rates, doubts }: LearnedComing = { source: null, rates: [], doubts: [] },
): Trade {
  return {
    revision: known.revision,
    jurisdiction: known.jurisdiction,
    species: known.species,
    groups: known.groups,
    conditions: known.conditions,
    planGroups: known.planGroups.map(planGroupOf),
    plans: known.plans.map(carePlanOf),
    keys: known.keys,
    places: known.places,
    speciesBySlug: new Map(known.species.map(one => [one.slug, one])),
    groupBySlug: new Map(known.groups.map(one => [one.slug, one])),
    conditionBySlug: new Map(known.conditions.map(one => [one.slug, one])),
    learned: new Map(learned.map(one => [one.key, one])),
    arrivals: new Map(rates.map(one => [one.group, one])),
    doubts,
    source,
  }
}

/** The species of a slug that the records point to. */
export function speciesOf(trade: Trade, slug: string): SpeciesKnowledge {
  const species = trade.speciesBySlug.get(slug)
  invariant(species !== undefined, `no species ${slug}`)
  return species
}

/** The licence rules that a species names. */
export function licencesOf(trade: Trade, species: SpeciesKnowledge): Trade['keys'] {
  return trade.keys.filter(({ kind, key }) => kind === 'licence' && species.licence_keys.includes(key))
}

/** The group of a slug that the records point to. */
export function groupOf(trade: Trade, slug: string): GroupKnowledge {
  const group = trade.groupBySlug.get(slug)
  invariant(group !== undefined, `no group ${slug}`)
  return group
}
