/**
 * What the network's own records say of the arrivals of one species group, as the forecast takes it.
 * Promise: plain data. Chances sum to 1; shares of centres and of plans sum to 1 in each season of the year.
 */

import type { DayNumber } from './day.ts'
import { SEASONS, type Season, seasonOf } from './stage-cell.ts'

/** The share of each centre that expects the group or saw it, by season. */
export type CentreShares = Readonly<
  Record<Season, readonly { readonly centreId: number; readonly share: number }[]>
>

/** `young[b]`: P(b + 1 animals at once) in the months in which young come; `grown[b]`: in the others. */
export type ArrivalSizes = { readonly young: readonly number[]; readonly grown: readonly number[] }

/**
 * Animals that go by these care plans, put together; none named: the group's usual plan. `young`: the share of them that are
 * young, whatever the month; absent where that is not known.
 */
export type PlanShare = {
  readonly planIds: readonly string[]
  readonly share: number
  readonly young?: number
}

/** The shares of animals that go by each plan, summing to 1, by season of arrival. */
export type PlanMix = Readonly<Record<Season, readonly PlanShare[]>>

/** Learned by `run`. `eventsPerDay[d]`: arrivals expected in the whole network on day `from` + d. */
export type LearnedRates = {
  readonly group: string
  readonly run: string
  readonly from: DayNumber
  readonly eventsPerDay: Float64Array
  readonly sizes: ArrivalSizes
  readonly shares: CentreShares
  readonly mix: PlanMix
}

/** The share of a group's arrivals that comes to a centre in the season of a day. */
export function shareOfCentre({ shares }: LearnedRates, centreId: number, day: DayNumber): number {
  return shares[seasonOf(day)].find(one => one.centreId === centreId)?.share ?? 0
}

/** The share of a group's animals that go by these plans, of those that arrive in the season of a day. */
export function shareOfPlan({ mix }: LearnedRates, planIds: readonly string[], day: DayNumber): number {
  return mix[seasonOf(day)].find(one => String(one.planIds) === String(planIds))?.share ?? 0
}

/** Every plan that some season has. */
export function plansIn({ mix }: LearnedRates): Omit<PlanShare, 'share'>[] {
  const all = SEASONS.flatMap(season => mix[season].map(({ share: _, ...plan }) => plan))
  return [...new Map(all.map(plan => [String(plan.planIds), plan])).values()]
}
