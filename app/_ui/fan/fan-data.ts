import type { DayNumber } from '#lib/domain/day.ts'

/** Demand on one day: how many animals want a place. */
export type FanDay = {
  readonly q10: number
  readonly q25: number
  readonly median: number
  readonly q75: number
  readonly q90: number
}

/** Places from a day on; the first step reaches back to the first night shown. */
export type CapacityStep = {
  readonly fromDay: DayNumber
  readonly places: number
  readonly reason?: string | undefined
}

export type FanData = {
  readonly todayDay: DayNumber
  /** The count of each night before today, last night last. */
  readonly past: readonly number[]
  /** Today and each day after it. */
  readonly ahead: readonly FanDay[]
  readonly capacity: readonly CapacityStep[]
  /** The chance of more animals than places, today and each day after it. */
  readonly shortByDay: readonly number[]
  /** What is counted: "animals", "birds". */
  readonly noun: string
}
