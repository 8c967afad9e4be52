/**
 * The animals of a call as placement sees them: their plan, what each stage needs, how urgent, what is suspected.
 * Promise: follows the call sheet alone; naming the species later makes another one of these and every rule runs
 * again. Refuses a sheet on which one of the three facts is missing.
 */
import type { CallFacts } from '#lib/domain/call-facts.ts'
import { type PlanChoice, planFor } from '#lib/domain/care-plan-choice.ts'
import type { CombinedPlan } from '#lib/domain/care-plan-combination.ts'
import { isUsuallyOperated } from '#lib/domain/condition.ts'
import type { ConditionKnowledge, GroupKnowledge, SpeciesKnowledge } from '#lib/domain/knowledge.ts'
import { type LeaveAlone, leaveAlone } from '#lib/domain/leave-alone.ts'
import { type PlaceNeed, placeNeed } from '#lib/domain/need.ts'
import { type NotifiableState, notifiableState } from '#lib/domain/notifiable.ts'
import { groupOf, type Trade } from '#lib/domain/trade.ts'
import { type UrgencyFound, urgencyOf } from '#lib/domain/urgency.ts'

/** Stands for the animals in company keys until they have references. */
export const ON_THE_PHONE = 'on the phone'

export type CallAnimals = {
  readonly species: SpeciesKnowledge
  readonly group: GroupKnowledge
  readonly conditions: readonly ConditionKnowledge[]
  readonly plan: CombinedPlan
  readonly choices: readonly PlanChoice[]
  /** One a stage of the plan. */
  readonly needs: readonly PlaceNeed[]
  readonly notifiable: NotifiableState
  readonly leave: LeaveAlone
  readonly urgency: UrgencyFound
}

/** The animals of a call sheet in a month (1 to 12); undefined while the species or what is wrong is not known. */
export function animalsOf(facts: CallFacts, trade: Trade, month: number): CallAnimals | undefined {
  const species = facts.species === null ? undefined : trade.speciesBySlug.get(facts.species)
  if (species === undefined || facts.conditions.length === 0) return undefined
  const group = groupOf(trade, species.group_slug)
  const conditions = conditionsOf(facts, trade)
  const animal = { species: species.slug, group: group.slug, class: species.class, age: facts.age }
  const findings = facts.conditions.map(({ slug, severity }) => ({
    condition: slug,
    severity: severity ?? undefined,
    isUsuallyOperated: conditions.some(one => one.slug === slug && isUsuallyOperated(one)),
  }))
  const { plan, choices } = planFor(trade, animal, findings)
  const needing = { species, group, age: facts.age, id: ON_THE_PHONE, arrivalId: ON_THE_PHONE, month }
  const { notifiable, leave, urgency } = judge(facts, trade)
  return {
    species,
    group,
    conditions,
    plan,
    choices,
    needs: plan.stages.map(stage => placeNeed(needing, stage)),
    notifiable,
    leave,
    urgency,
  }
}

/** What the sheet says of disease, leaving alone and urgency; needs no complete sheet. */
export function judge(
  facts: CallFacts,
  trade: Trade,
): { readonly notifiable: NotifiableState; readonly leave: LeaveAlone; readonly urgency: UrgencyFound } {
  const species = facts.species === null ? undefined : trade.speciesBySlug.get(facts.species)
  const conditions = conditionsOf(facts, trade)
  const notifiable = notifiableState(species, conditions, facts.answers)
  const leave = leaveAlone({
    conditions: conditions.map(one => one.slug),
    answers: facts.answers,
    age: facts.age,
    group: species?.group_slug,
    class: species?.class,
  })
  const found = urgencyOf(conditions, facts.answers, {
    isLeaveAlone: leave.kind === 'leave',
    isNotifiableSuspect: notifiable.state === 'suspected',
  })
  return { notifiable, leave, urgency: facts.urgency === null ? found : { ...found, urgency: facts.urgency } }
}

function conditionsOf(facts: CallFacts, trade: Trade): ConditionKnowledge[] {
  return facts.conditions.flatMap(({ slug }) => trade.conditionBySlug.get(slug) ?? [])
}
