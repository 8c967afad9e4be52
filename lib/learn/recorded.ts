/**
 * From what people recorded of a stage to the stay that is learned from.
 * Promise: a stage ends when the animal was said *ready*. Where the next one began and nobody said it, it was ready on some
 * day until then. A case that ended in the stage ends it by its outcome; what somebody planned elsewhere ends the sight of it.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Exit } from '#lib/domain/housing.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import type { RecordedStay, StayEnd, StayGate } from './stay.ts'

/** A day, and the earliest it can have been where that is not known to the day. */
export type RecordedDay = { readonly on: DayNumber; readonly earliest?: DayNumber }

/**
 * `began`: the stage. `ready`: said ready for the next one, or to go. `next`: the next stage began. `ended`: the case did,
 * in this stage, the last that began. `gate`: what had to be passed first.
 */
export type StageRecord = {
  readonly key: string
  readonly began: RecordedDay
  readonly ready: RecordedDay | null
  readonly next: DayNumber | null
  readonly ended: (RecordedDay & { readonly outcome: Outcome }) | null
  readonly gate?: StayGate
}

/** Which exit an outcome is; null where somebody planned that it went on elsewhere. */
const EXIT_OF: Readonly<Record<Outcome, Exit | null>> = {
  released: 'onward',
  died: 'died',
  'dead on arrival': 'died',
  euthanased: 'euthanased',
  reunited: 'left',
  escaped: 'left',
  'permanent care': 'left',
  unknown: 'left',
  'transferred out': null,
}

/**
 * The stay of a record. A day before the stage began is read as the day it began: what was recorded happened, if not in
 * that order.
 */
export function stayOfRecord({ key, began, ready, next, ended, gate }: StageRecord): RecordedStay {
  const enteredOn = began.on
  const since = (day: DayNumber) => Math.max(enteredOn, day)
  const exit = (by: Exit, { on, earliest = on }: RecordedDay): StayEnd =>
    earliest < on
      ? { kind: 'exit', exit: by, on: since(on), notBefore: Math.min(since(earliest), since(on)) }
      : { kind: 'exit', exit: by, on: since(on) }
  const end = (): StayEnd | null => {
    if (ready !== null) return exit('onward', ready)
    if (next !== null) return exit('onward', { on: next, earliest: enteredOn })
    if (ended === null) return null
    const by = EXIT_OF[ended.outcome]
    return by === null ? { kind: 'unseen', on: since(ended.on) } : exit(by, ended)
  }
  return { key, enteredOn, end: end(), ...(gate !== undefined && { gate }) }
}
