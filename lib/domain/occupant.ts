/**
 * Who is in, or promised to, what setup wants to change; named once each.
 */
import { groupBy } from '#lib/kernel/group-by.ts'

/** Somebody in, or promised to, an enclosure. */
export type Occupant = {
  readonly casualtyId: number
  readonly reference: string
  readonly company: string
  readonly isAlone: boolean
  /** Null: in, but without a proper place. */
  readonly placeNo: number | null
  readonly isPromise: boolean
  /** Null: in the building and nowhere. */
  readonly enclosure: string | null
}

/** One of those that stand in the way of a change, with what it has there. */
export type InTheWay = { readonly reference: string; readonly say: string }

/** Occupants by whether they are in or only promised, each by name once. */
export function namesOf(occupants: readonly Occupant[]): {
  readonly inside: readonly string[]
  readonly promised: readonly string[]
} {
  const byKind = groupBy(occupants, one => one.isPromise)
  const names = (isPromise: boolean) => [...new Set((byKind.get(isPromise) ?? []).map(one => one.reference))]
  return { inside: names(false), promised: names(true) }
}
