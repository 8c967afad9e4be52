/**
 * Values made once and kept by key, for what always comes out the same.
 * Promise: at most twice `most` of them are kept, and what was asked for lately stays. A maker that throws leaves nothing.
 */

/** The value of a key, made when it is not kept. */
export type Remember<T> = (key: string, make: () => T) => T

/** A memory of its own. When `most` new keys have come, those not asked for since the last time so many came are dropped. */
export function newRemember<T>(most: number): Remember<T> {
  let young = new Map<string, T>()
  let old = new Map<string, T>()
  const keep = (key: string, value: T): T => {
    if (young.size >= most) {
      old = young
      young = new Map()
    }
    young.set(key, value)
    return value
  }
  return (key, make) => {
    // A kept undefined is a value too.
    if (young.has(key)) return young.get(key) as T
    return keep(key, old.has(key) ? (old.get(key) as T) : make())
  }
}
