/**
 * Housing types that can stand in for one another without being nested (aviary, pool, pen).
 * Promise: for known demands the shortage is max over sets U of need types of (D(U) - C(N(U)))+, N(U) the enclosure
 * classes that serve any of them (Hall, with Konig's deficiency form): exact under free re-housing.
 */

/** A need type: its demand, and the indices of the enclosure classes that serve it. */
export type NeedType = { readonly demand: number; readonly servedBy: readonly number[] }

/**
 * Animals without a proper place at best, given demands and capacities by class. Cost: 2^types sets; throws
 * RangeError above 16 types, where another method is needed.
 */
export function familyShortage(needs: readonly NeedType[], capacities: readonly number[]): number {
  if (needs.length > 16) throw new RangeError(`needs may have at most 16 types, got ${needs.length}`)
  let worst = 0
  for (let set = 1; set < 1 << needs.length; set++) {
    let excess = 0
    let classes = 0
    needs.forEach(({ demand, servedBy }, type) => {
      if (!(set & (1 << type))) return
      excess += demand
      for (const index of servedBy) classes |= 1 << index
    })
    capacities.forEach((capacity, index) => {
      if (classes & (1 << index)) excess -= capacity
    })
    worst = Math.max(worst, excess)
  }
  return worst
}
