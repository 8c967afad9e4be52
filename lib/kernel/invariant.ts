/**
 * For what can only be our own mistake.
 * Promise: a broken assumption stops at once with the sentence that says which one.
 * Never used for what a person typed or what the outside did: those are a Failure and a fault.
 */

export class Bug extends Error {
  override readonly name = 'Bug'
}

/** Stops unless the condition holds. */
export function invariant(condition: unknown, what: string): asserts condition {
  if (!condition) throw new Bug(what)
}

/** The end of a switch over a union: reached only when a member was forgotten. */
export function assertNever(value: never, what = 'union'): never {
  throw new Bug(`${what} has a member nobody handles: ${JSON.stringify(value)}`)
}
