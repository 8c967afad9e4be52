/**
 * What a call is answered with: the options in order, what each would cost and hold, and what was ruled out by which
 * rule. Promise: plain data that can be shown, kept with the decision and compared later; nothing here computes.
 * Units: costs and shortages in place-days, distances in km, chances in [0, 1], days as DayNumber.
 */
import type { DayNumber } from './day.ts'
import type { CareStage, HousingType } from './housing.ts'

export type OptionKind =
  | 'admit'
  | 'admit and move'
  | 'vet'
  | 'keep till morning'
  | 'redirect'
  | 'advice'
  | 'examine outside'
  | 'report'

/** A time on the network's wall clock, `{ day, clock: '08:00' }`. */
export type LocalTime = { readonly day: DayNumber; readonly clock: string }

export type Named = { readonly id: string; readonly name: string }

/** Somewhere an animal can be sent, with the number to ring (null where none is known). */
export type Destination = Named & {
  readonly kind: 'centre' | 'practice' | 'outside'
  readonly phone: string | null
}

/** Days by which something happens with probability 10, 25, 50, 75, 90 %; null: after the forecast's last day. */
export type DayQuantiles = {
  readonly q10: DayNumber | null
  readonly q25: DayNumber | null
  readonly q50: DayNumber | null
  readonly q75: DayNumber | null
  readonly q90: DayNumber | null
}

/** One stage of the stay at one centre. Chances hold *if the animal lives to need it*. */
export type PathStop = {
  readonly stage: CareStage
  readonly centre: Named
  readonly housing: HousingType
  readonly from: DayQuantiles
  readonly until: DayQuantiles
  readonly reachProbability: number
  readonly chanceOfPlace: number
  /** The centre has housing of this type in the size that is needed, free or not. */
  readonly hasHousing: boolean
}

/** A drive between two keepers that the option foresees, and how likely it is to be needed. */
export type PlannedMove = {
  readonly from: Named
  readonly to: Named
  readonly stage: CareStage
  readonly on: DayQuantiles
  readonly km: number
  readonly minutes: number
  readonly probability: number
}

/** What the stay ribbon is drawn from; `groundChance[i]` is the chance of a proper place on day `firstDay` + i. */
export type Ribbon = {
  readonly firstDay: DayNumber
  readonly groundChance: readonly number[]
}

/** A place that can be kept for the animal tonight. */
export type HeldPlace = {
  readonly enclosureId: string
  readonly placeNo: number
  readonly name: string
}

/** Who opens when the animal comes. */
export type OpenDoor =
  | { readonly kind: 'open' | 'staffed' }
  | { readonly kind: 'on-call'; readonly name: string; readonly phone: string | null }

/** A centre beyond what it lets the desk fill: `offered` null where nothing was agreed for this group. */
export type AskFirst = {
  readonly phone: string | null
  readonly offered: number | null
  readonly left: number
  readonly wanted: number
}

export type CostTerm = { readonly value: number; readonly shown: number } & CostReason

/** Why an option costs something: the terms of the welfare cost, each with what its sentence needs. */
export type CostReason =
  | {
      readonly kind: 'no place on arrival'
      readonly centre: Named
      readonly short: number
      readonly weight: number
      readonly isTonight: boolean
    }
  | {
      readonly kind: 'first stage' | 'later stage'
      readonly stage: CareStage
      readonly housing: HousingType
      readonly centre: Named
      /** Expected place-days short before damping. */
      readonly undamped: number
      /** Null: the centre has no such housing, each day counts in full. */
      readonly damping: number | null
    }
  | {
      readonly kind: 'transfer'
      readonly from: Named
      readonly to: Named
      readonly probability: number
      readonly weight: number
    }
  | { readonly kind: 'drive'; readonly to: Named; readonly km: number; readonly kmPerPlaceDay: number }
  | {
      readonly kind: 'later drive'
      readonly from: Named
      readonly to: Named
      readonly km: number
      readonly probability: number
      readonly kmPerPlaceDay: number
    }
  | { readonly kind: 'kept till morning' }
  | { readonly kind: 'redirected' }
  | { readonly kind: 'refused' }

export type CostKind = CostReason['kind']

/** Place-days short that the animal adds for everybody, over all classes, undamped. */
export type AddedShortage = {
  /** Within the forecast: the rise that Weeks ahead shows once the animal is in it. */
  readonly withinHorizon: number
  /** After the forecast's last day, at that day's chance of being short. */
  readonly beyond: number
  /** Days in stages for which the centre has no housing at all; no class can show these. */
  readonly withoutHousing: number
}

/** One option set beside another, by kind of cost; a positive difference: this option costs more there. */
export type Comparison = {
  readonly with: { readonly key: string; readonly kind: OptionKind; readonly to: Named | null }
  readonly difference: number
  readonly byKind: readonly {
    readonly kind: CostKind
    readonly difference: number
    /** The largest term of this kind on the side that costs more. */
    readonly term: CostTerm
  }[]
}

/** Which rule, rather than cost, gives an option its place in the order. */
export type OrderRule = 'leave alone' | 'refusal comes last' | 'notifiable suspect'

export type PlacementOption = {
  /** The same for the same kind, destination and path: options keep their place by it. */
  readonly key: string
  readonly kind: OptionKind
  readonly orderRule: OrderRule | null
  readonly to: Destination | null
  readonly path: readonly PathStop[]
  readonly moves: readonly PlannedMove[]
  readonly ribbon: Ribbon | null
  readonly release: DayQuantiles | null
  /** Index into `path` of the stage with the smallest chance of a proper place; null without a path. */
  readonly weakest: number | null
  readonly travel: { readonly km: number; readonly minutes: number } | null
  /** Days since the first centre's animals were last counted; null: never, or no centre. */
  readonly countedDaysAgo: number | null
  readonly door: OpenDoor | null
  readonly askFirst: AskFirst | null
  readonly placesTonight: readonly HeldPlace[]
  /** How many of the animals have no proper place at the first centre tonight. */
  readonly shortTonight: number
  /** The vet's word under which a finder keeps it, and when the desk calls back. */
  readonly keep: KeepWord | null
  readonly isUnmetDemand: boolean
  readonly terms: readonly CostTerm[]
  readonly total: number
  readonly totalShown: number
  readonly addedShortage: AddedShortage
  /** Against the first option; for the first option against the whole stay at the nearest centre (or the second). */
  readonly comparison: Comparison | null
  /** No other centre that could take it tonight is nearer. */
  readonly isNearest: boolean
}

export type KeepWord = {
  readonly vetName: string
  readonly agreedAt: LocalTime
  readonly callBackAt: LocalTime
  readonly keptBy: 'finder' | 'practice'
}

/** What a rule took off the list, and what its sentence needs. */
export type RuledOut = { readonly who: RuledOutSubject } & RuledOutReason

export type RuledOutSubject =
  | ({ readonly kind: 'centre' | 'practice' | 'outside' } & Named)
  | { readonly kind: 'keep till morning' }
  | { readonly kind: 'move'; readonly stage: CareStage }
  | { readonly kind: 'admission' }

export type RuledOutReason =
  | { readonly rule: 'inactive' }
  | { readonly rule: 'takes no such group'; readonly group: string }
  | { readonly rule: 'not authorised'; readonly licence: string }
  | { readonly rule: 'movement stop'; readonly since: DayNumber; readonly covers: string }
  | { readonly rule: 'closed to high risk' }
  | { readonly rule: 'isolation full' }
  | { readonly rule: 'no more'; readonly until: LocalTime }
  | { readonly rule: 'feeding rounds'; readonly can: number; readonly needs: number }
  | { readonly rule: 'no housing'; readonly stage: CareStage; readonly housing: HousingType }
  | { readonly rule: 'shut'; readonly until: LocalTime | null }
  | { readonly rule: 'no cover now' }
  | { readonly rule: 'no vet agreed' }
  | { readonly rule: 'no centre follows' }
  | { readonly rule: 'not caught' }
  | { readonly rule: 'nobody to keep it' }
  | { readonly rule: 'notifiable suspect'; readonly disease: string }
  | { readonly rule: 'in isolation'; readonly next: CareStage }

export type RankedOptions = {
  readonly options: readonly PlacementOption[]
  readonly ruledOut: readonly RuledOut[]
}
