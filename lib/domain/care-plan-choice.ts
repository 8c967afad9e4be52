/**
 * Which care plan speaks for an animal with a condition.
 * Promise: always one, with the reason for it: the plan of its own group, else of a wider one up to any bird or
 * mammal, else the moderate one, else the plan for any reason (reference: plans). Until somebody says how bad it is,
 * the plan without a split is taken, else the moderate one, else the closed fracture.
 */
import { invariant } from '#lib/kernel/invariant.ts'
import { newRemember, type Remember } from '#lib/kernel/remember.ts'
import type { CarePlan, PlanGroup, Severity, Treatment } from './care-plan.ts'
import { type CombinedPlan, combinePlans } from './care-plan-combination.ts'
import { ANY_REASON } from './condition.ts'
import type { Age, AnimalClass } from './species.ts'

export type PlanAnimal = {
  readonly species: string
  readonly group: string
  readonly class: AnimalClass
  readonly age: Age
}

export type Finding = {
  readonly condition: string
  /** Absent until somebody says how bad it is. */
  readonly severity?: Severity | undefined
  readonly treatment?: Treatment | undefined
  /** The condition may need a surgeon of bones or soft tissue: the operated plan is assumed until a vet decides. */
  readonly isUsuallyOperated?: boolean | undefined
}

export type PlanLibrary = { readonly plans: readonly CarePlan[]; readonly planGroups: readonly PlanGroup[] }

export type ChoiceReason = 'own group' | 'wider group' | 'moderate instead' | 'any reason instead'
export type PlanChoice = {
  readonly condition: string
  readonly plan: CarePlan
  readonly because: ChoiceReason
}

const SEVERITY_WHEN_UNKNOWN: readonly Severity[] = ['any', 'moderate', 'closed', 'mild', 'severe', 'open']

/** The plan groups that mean this animal, its own first, any bird or mammal last. */
export function planGroupsOf(animal: PlanAnimal, groups: readonly PlanGroup[]): string[] {
  const chains = groups.filter(group => isMeant(animal, group)).map(group => widening(group, groups))
  const longest = chains.sort((a, b) => b.length - a.length)[0]
  return longest ?? [`any ${animal.class}`]
}

/** The plan for one finding in one animal, and why this one. */
export function choosePlan(library: PlanLibrary, animal: PlanAnimal, finding: Finding): PlanChoice {
  const chain = planGroupsOf(animal, library.planGroups)
  const { condition } = finding
  const named = findPlan(library, chain, finding, finding.severity)
  if (named !== undefined) {
    return { condition, plan: named, because: named.planGroup === chain[0] ? 'own group' : 'wider group' }
  }
  const moderate = findPlan(library, chain, finding, 'moderate')
  if (moderate !== undefined) return { condition, plan: moderate, because: 'moderate instead' }
  const anyReason = findPlan(library, chain, { ...finding, condition: ANY_REASON }, undefined)
  invariant(anyReason !== undefined, `there is no plan for any reason in any ${animal.class}`)
  return {
    condition,
    plan: anyReason,
    because: condition === ANY_REASON ? 'own group' : 'any reason instead',
  }
}

/**
 * One plan for all findings. The plan for any reason steps back as soon as one finding has a plan of its own: it is
 * the average of all animals and says nothing more about this one. The same question of the same library gives the
 * same objects, so that what is computed from a plan's estimates can be kept by them.
 */
export function planFor(
  library: PlanLibrary,
  { species, group, class: animalClass, age }: PlanAnimal,
  findings: readonly Finding[],
): PlanFound {
  const remember = found.get(library) ?? newRemember(PLANS_MAX)
  found.set(library, remember)
  const animal = { species, group, class: animalClass, age }
  return remember(JSON.stringify([animal, findings]), () => findPlanFor(library, animal, findings))
}

export type PlanFound = { readonly plan: CombinedPlan; readonly choices: readonly PlanChoice[] }

const found = new WeakMap<PlanLibrary, Remember<PlanFound>>()
const PLANS_MAX = 512

function findPlanFor(library: PlanLibrary, animal: PlanAnimal, findings: readonly Finding[]): PlanFound {
  const choices = (findings.length === 0 ? [{ condition: ANY_REASON }] : findings).map(finding =>
    choosePlan(library, animal, finding),
  )
  const specific = choices.filter(choice => choice.plan.condition !== ANY_REASON)
  return {
    plan: combinePlans((specific.length > 0 ? specific : choices).map(choice => choice.plan)),
    choices,
  }
}

/** How bad a condition can be said to be for this animal: the splits of the first group that has any. */
export function severitiesOf(library: PlanLibrary, animal: PlanAnimal, condition: string): Severity[] {
  const chain = planGroupsOf(animal, library.planGroups)
  for (const group of chain) {
    const found = library.plans.filter(plan => plan.condition === condition && plan.planGroup === group)
    if (found.length > 0) {
      return SEVERITY_WHEN_UNKNOWN.filter(severity => found.some(plan => plan.severity === severity))
    }
  }
  return []
}

function findPlan(
  library: PlanLibrary,
  chain: readonly string[],
  finding: Finding,
  severity: Severity | undefined,
): CarePlan | undefined {
  const wanted = severity === undefined ? SEVERITY_WHEN_UNKNOWN : [severity, 'any']
  for (const group of chain) {
    for (const one of wanted) {
      const found = library.plans.filter(
        plan => plan.condition === finding.condition && plan.planGroup === group && plan.severity === one,
      )
      const chosen = treatmentOrder(finding).flatMap(way => found.filter(plan => plan.treatment === way))[0]
      if (chosen !== undefined) return chosen
    }
  }
  return undefined
}

function treatmentOrder({ treatment, isUsuallyOperated }: Finding): Treatment[] {
  if (treatment === 'surgical' || (treatment === undefined && isUsuallyOperated)) {
    return ['surgical', 'none', 'conservative']
  }
  return treatment === 'none' ? ['none', 'conservative', 'surgical'] : ['conservative', 'none', 'surgical']
}

function isMeant(animal: PlanAnimal, group: PlanGroup): boolean {
  return (
    group.class === animal.class &&
    (group.groups.length === 0 || group.groups.includes(animal.group)) &&
    (group.species.length === 0 || group.species.includes(animal.species)) &&
    (group.age === null || group.age === animal.age)
  )
}

function widening(group: PlanGroup, groups: readonly PlanGroup[]): string[] {
  const chain = [group.slug]
  let wider = group.wider
  while (wider !== null && !chain.includes(wider)) {
    chain.push(wider)
    wider = groups.find(one => one.slug === wider)?.wider ?? null
  }
  return chain
}
