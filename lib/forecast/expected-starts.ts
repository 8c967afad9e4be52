/**
 * The day on which each stage of a stay is expected to begin, if it is reached: the usual times one after another.
 * Promise: a stage that began keeps its day; the stage an animal is in ends today or later. Days are DayNumber.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import type { StageEstimate } from './model.ts'
import { gateDelay, type StageLaw, stageLaw } from './stage-law.ts'

export type StageOfStay = {
  readonly no: number
  readonly estimate: StageEstimate
  readonly beganOn: DayNumber | null
}

/** By number of the stage; `stages` in order. One that was passed over, or that nothing began before, begins today. */
export function expectedStarts(
  stages: readonly StageOfStay[],
  today: DayNumber,
): ReadonlyMap<number, DayNumber> {
  const starts = new Map<number, DayNumber>()
  let next = today
  for (const { no, estimate, beganOn } of stages) {
    const from = beganOn ?? next
    starts.set(no, from)
    next = Math.max(today, from + usualDays(estimate, from))
  }
  return starts
}

/** Midnights an animal usually spends in a stage that begins on that day, if it goes on. */
export function usualDays(estimate: StageEstimate, from: DayNumber): number {
  const { ready, leastDays = 0, learned } = estimate
  if (learned !== undefined) return medianOnward(stageLaw(estimate, from, learned.days))
  return ready.kind === 'length'
    ? Math.max(Math.round(ready.length.medianDays), leastDays)
    : gateDelay(ready, from, leastDays) + Math.round(ready.lag.medianDays)
}

/** The day by which half of those who ever go onward have; the law's last where it lies beyond. */
function medianOnward({ masses, tails, days }: StageLaw): number {
  const half = (neumaierSum(masses.onward) + tails.onward) / 2
  let gone = 0
  const day = masses.onward.findIndex(mass => {
    gone += mass
    return gone >= half
  })
  return day === -1 ? days : day
}
