/** What the generated history consists of: plain data, instants in milliseconds. */
import type { PlanAnimal } from '#lib/domain/care-plan-choice.ts'
import type { CombinedPlan } from '#lib/domain/care-plan-combination.ts'
import type { Spot } from '../scenario/geography.ts'

export type Outcome =
  | 'released'
  | 'died'
  | 'euthanased'
  | 'dead on arrival'
  | 'reunited'
  | 'escaped'
  | 'transferred out'

/** From this instant this keeper has the animal. */
export type Change = {
  readonly at: number
  readonly keeper: 'finder' | 'driver' | 'centre' | 'nobody'
  readonly driverId?: number
  readonly centreId?: number
  readonly enclosureId?: number
  readonly placeNo?: number
  readonly outcome?: Outcome
}

export type StageMark = { readonly no: number; readonly kind: 'began' | 'ready'; readonly at: number }

export type Animal = PlanAnimal & {
  readonly company: string
  readonly preys: 'predator' | 'prey' | null
  /** Needs an enclosure to itself. */
  readonly isAlone: boolean
}

export type FoundIn = { readonly condition: string; readonly severity: string }

export type Arrival = {
  readonly id: number
  readonly at: number
  readonly centreId: number
  readonly spot: Spot
  readonly foundWords: string
}

export type Casualty = {
  readonly id: number
  readonly arrival: Arrival
  /** Animals of one arrival counted together; null for one alone. */
  readonly batchNo: number | null
  readonly memberNo: number | null
  readonly animal: Animal
  readonly findings: readonly FoundIn[]
  readonly plan: CombinedPlan
  /** One of the few that the demonstration is about. */
  readonly isStory?: boolean
  readonly changes: Change[]
  /** When each stage of the plan began and when the animal was seen to be ready for the next; stages count from 1. */
  readonly marks: StageMark[]
}
