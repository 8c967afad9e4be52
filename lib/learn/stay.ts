/**
 * One animal's stay in one stage, as it was recorded.
 * Promise: plain data. Days are DayNumber of the network's calendar, so that their differences are midnights passed.
 * A stay ends when the animal is *ready* for the next stage, never when it moved: waiting for a place is no healing.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Exit } from '#lib/domain/housing.ts'

/**
 * What had to be passed before this animal could go on. `check`: the day of a booked check; `weekdays`: the days on
 * which somebody may pass it (Monday = 1 to Sunday = 7), absent where any day will do; `opens`: the day on which a
 * date gate lets it pass, from which its going on is counted; `tested`: the last day on which it was found unfit, where
 * that is known, after which its going on is not.
 */
export type StayGate = {
  readonly check?: DayNumber
  readonly weekdays?: readonly number[]
  readonly opens?: DayNumber
  readonly tested?: DayNumber
}

/**
 * How it ended: by an exit on day `on`, or on a day from `notBefore` to `on` that nobody wrote down; or it was taken
 * from sight by a transfer that somebody planned (`unseen`), in the stage still. Leaving by itself is an exit.
 */
export type StayEnd =
  | { readonly kind: 'exit'; readonly exit: Exit; readonly on: DayNumber; readonly notBefore?: DayNumber }
  | { readonly kind: 'unseen'; readonly on: DayNumber }

/**
 * `watchedFrom`: the day of import, where the record came from elsewhere while the animal was in the stage; had it
 * ended before, we would not know of it. `key` tells stays apart and seeds what is drawn for this one.
 * `end` null: in the stage still.
 */
export type RecordedStay = {
  readonly key: string
  readonly enteredOn: DayNumber
  readonly watchedFrom?: DayNumber
  readonly end: StayEnd | null
  readonly gate?: StayGate
}

/** Calendar days of a stay as numbers of midnights: first trial `from`, and either exit days up to `until` or trials up to it. */
export type StayDays = {
  readonly from: number
  readonly until: number
  /** The exit and its earliest day; null where `until` is the last day survived (-1: no trial). */
  readonly exit: { readonly by: Exit; readonly earliest: number } | null
}

/**
 * The days of a stay as known on the morning of `asOf`, the first day not over: what is entered of that day or a later
 * one is left out, since those who do not leave today have no trial of today yet.
 * Throws RangeError where a day lies before one that must come first.
 */
export function daysOfStay(stay: RecordedStay, asOf: DayNumber): StayDays {
  const { enteredOn, watchedFrom = enteredOn, end } = stay
  const from = Math.max(0, watchedFrom - enteredOn)
  if (end !== null && end.on < Math.max(enteredOn, watchedFrom)) {
    throw new RangeError(`stay ${stay.key} needs an end on or after ${enteredOn + from}, got ${end.on}`)
  }
  if (end === null || end.kind === 'unseen') {
    return { from, until: Math.min(asOf, end?.on ?? asOf) - enteredOn - 1, exit: null }
  }
  const { on, notBefore = on } = end
  if (notBefore > on) throw new RangeError(`stay ${stay.key} needs notBefore up to ${on}, got ${notBefore}`)
  const earliest = Math.max(notBefore - enteredOn, from)
  if (on >= asOf) return { from, until: Math.min(asOf - enteredOn, earliest) - 1, exit: null }
  return { from, until: on - enteredOn, exit: { by: end.exit, earliest } }
}

/** Days between entry and the opening of the stay's date gate; 0 without one, or where it was open. */
export function opensAfter({ gate, enteredOn }: RecordedStay): number {
  return Math.max(0, (gate?.opens ?? enteredOn) - enteredOn)
}
