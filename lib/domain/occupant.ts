/**
 * Whether what setup wants to change still holds everybody who is in.
 * Promise: nobody's place is taken away by a change in setup; whoever would lose one is returned by name.
 */
import { groupBy } from '#lib/kernel/group-by.ts'

/** Somebody in, or promised to, an enclosure. */
export type Occupant = {
  readonly reference: string
  readonly company: string
  readonly isAlone: boolean
  /** Null: in, but without a proper place. */
  readonly placeNo: number | null
  readonly isPromise: boolean
  /** Null: in the building and nowhere. */
  readonly enclosure: string | null
}

type Stocking = readonly { readonly company: string; readonly places: number }[]

/** Those who have a place now and would have none under another stocking. */
export function withoutPlaceUnder(occupants: readonly Occupant[], stocking: Stocking): Occupant[] {
  const placesOf = new Map(stocking.map(row => [row.company, row.places]))
  return occupants.filter(one => {
    if (one.placeNo === null) return false
    const places = placesOf.get(one.company) ?? 0
    return one.placeNo > (one.isAlone ? Math.min(places, 1) : places)
  })
}

/** Occupants by whether they are in or only promised, each by name once. */
export function namesOf(occupants: readonly Occupant[]): {
  readonly inside: readonly string[]
  readonly promised: readonly string[]
} {
  const byKind = groupBy(occupants, one => one.isPromise)
  const names = (isPromise: boolean) => [...new Set((byKind.get(isPromise) ?? []).map(one => one.reference))]
  return { inside: names(false), promised: names(true) }
}
