/**
 * The plain data a forecast is made from: estimates of care plans, needs, pools, animals in care, arrivals.
 * Promise: everything here can be stored, copied and compared; nothing here computes. Days are DayNumber or
 * whole days from `today` on; a share is in [0, 1]; a length is a lognormal given by median and 90th percentile.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { CareStage, Exit, HousingType } from '#lib/domain/housing.ts'
import type { LearnedHazards } from '#lib/domain/stage-cell.ts'

/** How long something takes, in days: a lognormal with this median and 90th percentile (p90Days >= medianDays > 0). */
export type LengthEstimate = { readonly medianDays: number; readonly p90Days: number }

/** What the plan says of death where it says nothing itself: raptors, all causes (trade source S26: median 2, p90 31). */
export const DIED_BY_DEFAULT: LengthEstimate = { medianDays: 2, p90Days: 31 }

/**
 * When a stage is passed: after a length of time, or by date. A date gate ends at the later of its opening day and
 * entry + `minDays`; past `closes` it waits for next year's opening; `lag` is then added, or all would leave on one
 * morning. With `closes` null it stays open until the end of the year.
 */
export type Readiness =
  | { readonly kind: 'length'; readonly length: LengthEstimate }
  | {
      readonly kind: 'date gate'
      /** Month and day, `03-20`. */
      readonly opens: string
      readonly closes: string | null
      readonly minDays: number
      readonly lag: LengthEstimate
    }

/**
 * One stage of a care plan. Shares sum to 1; each length is *given* that ending; `left` takes the ready time.
 * `leastDays`: a check due that many midnights after the stage began must be passed first, so whoever would go onward
 * earlier goes on that day; it bars no other ending. Absent: 0. `learned`: what the network's records say, which then
 * stands for shares and lengths in everything computed; the date gate and the check stay the plan's.
 */
export type StageEstimate = {
  readonly stage: CareStage
  readonly ready: Readiness
  readonly shares: Readonly<Record<Exit, number>>
  readonly died: LengthEstimate
  readonly euthanased: LengthEstimate
  readonly leastDays?: number
  readonly learned?: LearnedHazards
}

/**
 * What an animal needs in a stage.
 * `size`: metres of flight for aviaries, size rank 1 to 9 elsewhere. `company`: who may share an enclosure (below).
 * `stock`: animals of that company in one enclosure, a whole number of at least 1.
 */
export type Need = {
  readonly housing: HousingType
  readonly size: number
  readonly company: string
  readonly stock: number
}

/** Company key of an animal that must be alone: it takes one enclosure whatever the stocking says. */
export function aloneCompany(id: string): string {
  return `alone:${id}`
}

/** Company key of one arrival in isolation: its animals share with each other and with nobody else. */
export function arrivalCompany(id: string): string {
  return `arrival:${id}`
}

/** Enclosures of one housing type at one centre, by size ascending. Enclosures bind, not places. */
export type Pool = {
  readonly id: string
  readonly centreId: string
  readonly housing: HousingType
  readonly steps: readonly PoolStep[]
  /** Days an enclosure stays empty for cleaning after an animal has gone; 0 where none. */
  readonly turnaroundDays: number
}

/**
 * Enclosures of exactly this size; `capacityByDay` has one whole number a day of the horizon, closures taken off.
 * `doubtByDay`: variance, in enclosures squared, of what is expected of this size, from what stays and arrivals share and
 * records leave open. Absent: 0.
 */
export type PoolStep = {
  readonly size: number
  readonly capacityByDay: Int32Array
  readonly doubtByDay?: Float64Array
}

/** A stage and where it would be lived; `poolId` null: the place it would need does not exist on this path. */
export type PathStage = {
  readonly estimate: StageEstimate
  readonly need: Need
  readonly poolId: string | null
}

/**
 * The way ahead of one casualty, or of `count` litter-mates that go the same way (each by its own luck).
 * `firstStage` is the index of the stage it is in; it entered that stage on `enteredStageOn`, and is known to be
 * in it since then (a day after today: it is expected then). `isReady`: it has passed that stage and waits for the
 * next one's place, so its demand is already there, the next stage beginning today; ready in its last stage it
 * keeps its place tonight and is gone tomorrow. `unseenDays`: days since its centre was last counted; what may
 * have happened unseen since then is part of its future.
 */
export type Itinerary = {
  readonly casualtyId: string
  readonly count: number
  readonly stages: readonly PathStage[]
  readonly firstStage: number
  readonly enteredStageOn: DayNumber
  readonly isReady: boolean
  readonly unseenDays: number
}

/**
 * Arrivals of one kind at one centre that all start on the same path. Events are Poisson with mean
 * `eventsPerDay[d]` on day today + d; an event brings b + 1 animals with probability `broodSizePmf[b]`; brood-mates
 * are independent given the event. The engine scales the first day by the share of today that is left.
 */
export type ArrivalStream = {
  readonly key: string
  readonly stages: readonly PathStage[]
  readonly eventsPerDay: Float64Array
  readonly broodSizePmf: readonly number[]
}

/** Everything a forecast depends on. Itineraries have distinct casualtyId; pools distinct id. */
export type ForecastInput = {
  readonly today: DayNumber
  /** Days ahead, today first: 180 by default in the service. */
  readonly horizonDays: number
  /** From 1 at midnight towards 0: scales tonight's hazards and today's arrivals. */
  readonly shareOfTodayLeft: number
  readonly pools: readonly Pool[]
  readonly itineraries: readonly Itinerary[]
  readonly arrivals: readonly ArrivalStream[]
}
