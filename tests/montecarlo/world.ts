/**
 * The model that is simulated, in this folder's own words: it shares no code and no type with what it checks.
 * Days are whole; index 0 is today, and an animal is counted at the midnight that ends a day.
 */
export type Length = { readonly medianDays: number; readonly p90Days: number }
export type Exit = 'onward' | 'died' | 'euthanased' | 'left'

export type Estimate = {
  readonly ready:
    | { readonly kind: 'length'; readonly length: Length }
    | {
        readonly kind: 'date gate'
        readonly opens: string
        readonly closes: string | null
        readonly minDays: number
        readonly lag: Length
      }
  readonly shares: Readonly<Record<Exit, number>>
  readonly died: Length
  readonly euthanased: Length
  readonly leastDays?: number
}

export type Stage = {
  readonly estimate: Estimate
  readonly poolId: string | null
  readonly need: { readonly size: number; readonly company: string; readonly stock: number }
}

export type World = {
  readonly today: number
  readonly horizonDays: number
  readonly pools: readonly {
    readonly id: string
    readonly turnaroundDays: number
    readonly steps: readonly { readonly size: number; readonly capacityByDay: Int32Array }[]
  }[]
  readonly itineraries: readonly {
    readonly count: number
    readonly stages: readonly Stage[]
    readonly firstStage: number
    readonly enteredStageOn: number
    readonly isReady: boolean
    readonly unseenDays: number
  }[]
  readonly arrivals: readonly {
    readonly stages: readonly Stage[]
    readonly eventsPerDay: Float64Array
    readonly broodSizePmf: readonly number[]
  }[]
}
