/**
 * When an animal was fit, where somebody could only see it on some days.
 * Promise: an animal that goes on at Tuesday's clinic was fit on some day since Friday's; one that died on Monday was not
 * fit on Friday, and what it was after that nobody knows. So what bars going on makes its day uncertain, and takes no
 * animal's healing for slower. The forecast has whoever was fit earlier go on when the gate opens, so laws so learned
 * are those it asks for.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { daysOfStay, type RecordedStay } from './stay.ts'
import { couldPass } from './trials.ts'

/**
 * The stay with its check and its clinic's weekdays put into dates: going on happened between the day after it was last
 * found unfit and the day it went on; other stays are known to be unfit up to the last day on which they could have
 * gone on, `tested`. A check that was done and not passed found it unfit that day: it is the stay's own `tested`.
 * A date gate stays as it is: it ends a stage by the calendar, not by fitness. Throws RangeError as daysOfStay does.
 */
export function fitnessOf(stay: RecordedStay, asOf: DayNumber): RecordedStay {
  const { gate, enteredOn, end } = stay
  if (gate?.check === undefined && gate?.weekdays === undefined && gate?.tested === undefined) return stay
  const { from, until, exit } = daysOfStay(stay, asOf)
  const isOnward = exit?.by === 'onward' && end?.kind === 'exit'
  const unfit = enteredOn + lastOpen(stay, isOnward ? exit.earliest - 1 : until, from)
  const tested = Math.max(unfit, gate.tested ?? unfit)
  const opens = gate.opens === undefined ? {} : { opens: gate.opens }
  if (!isOnward) return { ...stay, gate: { ...opens, tested } }
  const notBefore = Math.min(end.on, Math.max(tested + 1, gate.opens ?? enteredOn))
  return { ...stay, gate: opens, end: { ...end, notBefore } }
}

/** The last day since entry, up to `until`, on which it could have gone on; from - 1 where there was none. */
function lastOpen(stay: RecordedStay, until: number, from: number): number {
  let day = until
  while (day >= from && !couldPass(stay, day)) day--
  return Math.max(day, from - 1)
}
