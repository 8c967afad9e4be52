/**
 * Which stages end by what the network's own records say of them.
 * Promise: a stage that its animal's plans have today, as they have it, gets what was learned of its cell, and keeps its
 * own check; one that a person changed for this animal, or that setup changed since, keeps its own estimate. The
 * same estimate with the same learning is the same object. Nothing learned: every estimate is returned as it is. What a
 * vet said of an animal's stage moves that stage of that animal alone.
 */
import type { CarePlan } from '#lib/domain/care-plan.ts'
import { type CombinedPlan, combinePlans } from '#lib/domain/care-plan-combination.ts'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { saysTheSame } from '#lib/domain/estimate.ts'
import type { PlannedStage, ResidentState } from '#lib/domain/network-state.ts'
import { cellKey, type LearnedHazards, seasonOfCell } from '#lib/domain/stage-cell.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { newRemember, type Remember } from '#lib/kernel/remember.ts'
import { heededEstimate } from './heeded-estimate.ts'
import type { StageEstimate } from './model.ts'

const COMBINATIONS_MAX = 512

/** The plans that an animal's own copy was made of, and the day it was admitted. */
export type Admitted = { readonly planIds: readonly string[]; readonly admittedOn: DayNumber }

/** The estimate of one stage of an animal's plan, with what was learned of it where that is known. */
export function learnedEstimate(
  trade: Trade,
  { planIds, admittedOn }: Admitted,
  estimate: StageEstimate,
): StageEstimate {
  if (trade.learned.size === 0 || planIds.length === 0) return estimate
  const at = planToday(trade, planIds)?.stages.findIndex(({ stage }) => stage === estimate.stage) ?? -1
  const learned = trade.learned.get(cellKey(planIds, at + 1, seasonOfCell(estimate.ready, admittedOn)))
  const today = planToday(trade, planIds)?.stages[at]?.estimate
  if (learned === undefined || today === undefined || !saysTheSame(estimate, today)) return estimate
  return withLearned(estimate, learned)
}

/** What an animal in care says of its stages. */
type InStage = Pick<ResidentState, 'admittedAt' | 'since' | 'began' | 'word'> & Pick<Admitted, 'planIds'>

/** The estimate of a stage of an animal in care. */
export function residentEstimate(
  trade: Trade,
  resident: InStage,
  { no, estimate }: Pick<PlannedStage, 'no' | 'estimate'>,
  zone: string,
): StageEstimate {
  const { planIds, admittedAt, since, began, word } = resident
  const known =
    trade.learned.size === 0
      ? estimate
      : learnedEstimate(trade, { planIds, admittedOn: dayOfInstant(admittedAt ?? since, zone) }, estimate)
  if (word === null || word.no !== no || began?.no !== no) return known
  const enteredOn = dayOfInstant(began.at, zone)
  return heededEstimate(
    known,
    { age: dayOfInstant(word.at, zone) - enteredOn, inDays: word.inDays },
    enteredOn,
  )
}

const made = new WeakMap<StageEstimate, StageEstimate & { readonly learned: LearnedHazards }>()

function withLearned(estimate: StageEstimate, learned: LearnedHazards): StageEstimate {
  const known = made.get(estimate)
  if (known?.learned === learned) return known
  const making = { ...estimate, learned }
  made.set(estimate, making)
  return making
}

const combinations = new WeakMap<Trade, Remember<CombinedPlan | undefined>>()

/** What those plans together say today; undefined where one of them is gone. */
export function planToday(trade: Trade, planIds: readonly string[]): CombinedPlan | undefined {
  const remember = combinations.get(trade) ?? newRemember(COMBINATIONS_MAX)
  combinations.set(trade, remember)
  return remember(planIds.join('+'), () => {
    const plans = planIds.flatMap((id): CarePlan[] => trade.plans.filter(plan => plan.id === id))
    return plans.length === planIds.length ? combinePlans(plans) : undefined
  })
}
