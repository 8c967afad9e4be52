/**
 * Erlang's loss formula: the share of arrivals that find every place taken.
 * Promise: exact recursion, stable for any number of places. Load in erlangs (arrivals a day x mean days).
 */

/**
 * B(places, load) in [0, 1]. Recursion B_0 = 1, B_n = A B_(n-1) / (n + A B_(n-1)); cost: one step a place.
 * Throws RangeError on a negative load or a number of places that is not whole.
 */
export function erlangB(places: number, load: number): number {
  if (!(Number.isInteger(places) && places >= 0))
    throw new RangeError(`places needs a whole number, got ${places}`)
  if (!(load >= 0 && Number.isFinite(load)))
    throw new RangeError(`load needs a number of at least 0, got ${load}`)
  let blocked = 1
  for (let n = 1; n <= places; n++) blocked = (load * blocked) / (n + load * blocked)
  return blocked
}
