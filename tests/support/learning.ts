/** Stays and laws for tests of learning, each in one line. */
import { type Exit, newByExit } from '#lib/domain/housing.ts'
import type { StageLaw } from '#lib/forecast/stage-law.ts'
import type { RecordedStay, StayGate } from '#lib/learn/stay.ts'
import { TODAY } from './forecasting.ts'

/** A stay long past that began on day 0 and ended so after `midnights`; `from` of them before it was imported. */
export function ended(
  exit: Exit,
  midnights: number,
  change: { from?: number; earliest?: number; gate?: StayGate } = {},
): RecordedStay {
  const enteredOn = TODAY - 5000
  const { from = 0, earliest = midnights, gate } = change
  return {
    key: `${exit} ${midnights}`,
    enteredOn,
    watchedFrom: enteredOn + from,
    end: { kind: 'exit', exit, on: enteredOn + midnights, notBefore: enteredOn + earliest },
    ...(gate === undefined ? {} : { gate }),
  }
}

/** A stay long past, carried off by a planned transfer after this many midnights. */
export function unseenAfter(midnights: number, from = 0): RecordedStay {
  const enteredOn = TODAY - 5000
  return {
    key: `unseen ${midnights}`,
    enteredOn,
    watchedFrom: enteredOn + from,
    end: { kind: 'unseen', on: enteredOn + midnights },
  }
}

/** An animal that has been in its stage for this many midnights. */
export function inCare(midnights: number): RecordedStay {
  return { key: `in care ${midnights}`, enteredOn: TODAY - midnights, end: null }
}

/** A law from the first days' sub-masses of going on and of dying; the rest goes on beyond them. */
export function smallLaw(onward: readonly number[], died: readonly number[]): StageLaw {
  const days = onward.length
  const masses = newByExit(() => new Float64Array(days))
  masses.onward.set(onward)
  masses.died.set(died)
  const staying = new Float64Array(days)
  let left = 1
  for (let d = 0; d < days; d++) {
    left -= onward[d]! + died[d]!
    staying[d] = left
  }
  return { days, masses, staying, tails: { onward: left, died: 0, euthanased: 0, left: 0 } }
}
