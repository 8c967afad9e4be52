/**
 * What placement is told of a call: the animals and their care plan, the policy, the centres, practices and outside
 * places as they stand now, and what it may ask of the forecast.
 * Promise: plain data, resolved by the caller; nothing here computes or reads a clock. Units: place-days, km, minutes,
 * whole days of the network's calendar.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { HeldPlace, KeepWord, LocalTime, Named } from '#lib/domain/option.ts'
import type { Road } from '#lib/domain/place.ts'
import type { Urgency } from '#lib/domain/urgency.ts'
import type { Need, PathStage, StageEstimate } from '#lib/forecast/model.ts'
import type { Serving } from '#lib/forecast/pools.ts'

/** Weights of the welfare cost in place-days; ours, no source. */
export type PlanPolicy = {
  /** Damping of what the forecast says of later days, in [0, 1]. */
  readonly kappa: number
  /** What a night of arrival without a proper place weighs, at least 0. */
  readonly omega: number
  readonly transferDays: number
  readonly kmPerPlaceDay: number
  readonly refusalDays: number
  readonly redirectDays: number
  readonly keepDays: Readonly<Record<Urgency, number>>
}

/** One stage of the animals' plan and what each of them needs in it: kinds of housing, the preferred one first. */
export type PlanStage = {
  readonly stage: CareStage
  readonly estimate: StageEstimate
  readonly needs: readonly [Need, ...Need[]]
}

/** The animals of one call; they are expected to travel together and to go the same way. */
export type Newcomers = {
  readonly count: number
  readonly group: Named
  readonly isHighRisk: boolean
  /** Feeds a day by hand that each of them needs; 0: feeds itself. */
  readonly feedsADay: number
  readonly stages: readonly PlanStage[]
}

/** A suspicion of a notifiable disease; until the authority's leave is recorded nothing is admitted. */
export type NotifiableSuspect = { readonly disease: string; readonly hasLeave: boolean }

/** Who lets an animal in now; `staffed`: somebody is there through the night. */
export type Door =
  | { readonly kind: 'open' | 'staffed' }
  | { readonly kind: 'on-call'; readonly name: string; readonly phone: string | null }
  | { readonly kind: 'shut'; readonly opensAt: LocalTime | null }

/** The four states of a site; `covers` says in words which animals a movement stop is about. */
export type SiteState =
  | { readonly kind: 'open' }
  | { readonly kind: 'closed to high risk' }
  | { readonly kind: 'isolation full' }
  | {
      readonly kind: 'no movement'
      readonly since: DayNumber
      readonly covers: string
      readonly coversThese: boolean
    }

/** A centre as it stands now for these animals. */
export type CentreNow = Named & {
  readonly phone: string | null
  readonly isActive: boolean
  readonly takesGroup: boolean
  /** The rule under which it may not hold such an animal. */
  readonly lacksLicence?: string | undefined
  readonly door: Door
  readonly site: SiteState
  readonly countedDaysAgo: number | null
  /** Said by the centre: it takes no more until then. */
  readonly noMoreUntil: LocalTime | null
  /** Said by the centre: so many feeding rounds a day, believed until then. */
  readonly feeding: { readonly rounds: number; readonly until: LocalTime } | null
  /** What the desk may fill for this group without asking; null: nothing is agreed, so the centre is asked. */
  readonly offer: { readonly places: number; readonly left: number } | null
  readonly road: Road
  /** Free places that fit the first stage tonight, best first; several may lie in one enclosure. */
  readonly freeTonight: readonly HeldPlace[]
  /** One a stage of the plan; null where the centre has no such housing (lib/forecast/pools.ts, findServing). */
  readonly homes: readonly (Serving | null)[]
}

export type PracticeNow = Named & {
  readonly phone: string | null
  readonly seesGroup: boolean
  readonly hasCoverNow: boolean
  readonly road: Road
  /** The road on to each centre, by centre id. */
  readonly toCentres: Readonly<Record<string, Road>>
}

export type OutsidePlace = Named & {
  readonly phone: string | null
  readonly takesGroup: boolean
  readonly road: Road
}

/** Everything an answer depends on beside the forecast. */
export type PlacementQuestion = {
  readonly today: DayNumber
  readonly animals: Newcomers
  readonly suspect: NotifiableSuspect | null
  /** The leave-alone rule says that it should stay where it is: advice then comes first. */
  readonly isLeaveAlone: boolean
  readonly isCaught: boolean
  readonly hasFinder: boolean
  readonly urgency: Urgency
  readonly policy: PlanPolicy
  readonly keep: KeepWord | null
  readonly centres: readonly CentreNow[]
  /** Roads between centres, `between[from][to]`. */
  readonly between: Readonly<Record<string, Readonly<Record<string, Road>>>>
  readonly practices: readonly PracticeNow[]
  readonly outside: readonly OutsidePlace[]
}

/** Where one animal will be in one stage, whatever the centre; days run from the forecast's first day. */
export type StageWalk = {
  /** P(it is in the stage at the midnight that ends day t), one value a day of the horizon. */
  readonly present: Float64Array
  /** Expected days in the stage after the horizon. */
  readonly daysBeyond: number
  /** P(it enters the stage on day t), one value a day of the horizon. */
  readonly entered: Float64Array
  /** P(it ever enters the stage). */
  readonly reachProbability: number
}

/** One entry a stage, then one for what follows the last stage, in which nothing is lived. */
export type Walk = readonly StageWalk[]

/** Which pool one animal takes up on a path, cleaning after it included: P(day by day), in [0, 1]. */
export type Occupancy = { readonly poolId: string; readonly need: Need; readonly presence: Float64Array }

/** What placement asks of the forecast. */
export type Outlook = {
  readonly today: DayNumber
  readonly horizonDays: number
  /** The way of one animal that enters the first stage on `entersOn`; before today: that is in it still. */
  readonly walk: (estimates: readonly StageEstimate[], entersOn: DayNumber) => Walk
  /** The pools that one animal takes up on a path, each once. */
  readonly occupancy: (path: readonly PathStage[], entersOn: DayNumber) => readonly Occupancy[]
  /**
   * The price of the n-th newcomer (n from 1): the rise of the expected places short when it joins after n - 1 like
   * it; one value in [0, 1] a day of the horizon.
   */
  readonly prices: (poolId: string, need: Need, nth: number) => Float64Array
  /**
   * The rise of the expected places short when `count` newcomers join, each of them there with these chances by day;
   * one value in [0, count] a day of the horizon.
   */
  readonly shortage: (poolId: string, need: Need, presence: Float64Array, count: number) => Float64Array
}
