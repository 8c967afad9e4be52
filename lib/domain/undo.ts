/**
 * For how long taking back is offered after a tap.
 * Promise: nothing else, so that a phone carries this and not the reading of an entry.
 */

/** Common practice, no source. */
export const UNDO_SECONDS = 10

/** What is left of it, in milliseconds; 0 or less when it is over. */
export function undoLeftMs(enteredAt: Date, now: Date): number {
  return UNDO_SECONDS * 1000 - (now.getTime() - enteredAt.getTime())
}
