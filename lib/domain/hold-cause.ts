/**
 * Why a place can't be kept, and which promises a fact has broken: plain data for words and pages.
 */

/** One thing that stands against a hold; `rule` is a kind of claim that is in the way, or the name of a rule. */
export type HoldCause = {
  readonly rule: string
  /** Of the animal that has the place, or for which it is kept. */
  readonly reference: string | null
  readonly placeNo: number | null
  readonly company: string | null
  readonly startsAt: Date | null
  /** Null: until further notice. */
  readonly endsAt: Date | null
  /** Places the enclosure has for this company; null: none. */
  readonly places: number | null
}

/** A kept place that something recorded has taken away; somebody must look for the next best. */
export type BrokenHold = {
  readonly claimId: number
  readonly casualtyId: number
  readonly reference: string
  readonly enclosureId: number
  readonly enclosure: string
  readonly expectedAt: Date | null
}
