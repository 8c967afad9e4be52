import type { DayNumber } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { CheckKind } from '#lib/words/ribbon.ts'

/** When a stage ends, given survival and the plan holding; all five the same day once it has ended. */
export type EndQuantiles = {
  readonly q10: DayNumber
  readonly q25: DayNumber
  readonly median: DayNumber
  readonly q75: DayNumber
  readonly q90: DayNumber
}

export type RibbonStage = {
  readonly stage: CareStage
  readonly end: EndQuantiles
  /** Of a proper place while this stage lasts, if the animal lives to need it; none for a stage that is past. */
  readonly chance?: number | undefined
  readonly centre: string
  /** "cage 8 in the ward". */
  readonly place?: string | undefined
  /** From the centre before, when this stage begins with a move. */
  readonly kmOn?: number | undefined
}

export type RibbonCheck = { readonly day: DayNumber; readonly kind: CheckKind; readonly text: string }

/** The days a picture spans; options in a list share one, so that their dates compare. */
export type RibbonAxis = { readonly fromDay: DayNumber; readonly days: number }

export type RibbonData = {
  /** The day the first stage began or begins. */
  readonly startDay: DayNumber
  readonly todayDay: DayNumber
  readonly stages: readonly RibbonStage[]
  /** The chance that no proper place is free, for today and each day after it. */
  readonly groundByDay: readonly number[]
  readonly checks: readonly RibbonCheck[]
}
