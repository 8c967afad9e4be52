/**
 * How many animals come at once, learned apart for the months in which young come.
 * Promise: chances of 1, 2, 3 ... animals that sum to 1; without records those that the centres entered, and one at a time
 * where no young come. Method: Dirichlet with the entered sizes as `SIZES_WEIGHT` arrivals.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { ArrivalSizes } from '#lib/domain/learned-arrivals.ts'
import type { RecordedArrival, UsualYear } from './arrivals.ts'

/** What the centres entered weighs, in arrivals. Ours. */
export const SIZES_WEIGHT = 20

/** The sizes of a group's arrivals. */
export function learnSizes(
  records: readonly RecordedArrival[],
  usual: readonly UsualYear[],
  isYoung: (day: DayNumber) => boolean,
): ArrivalSizes {
  const of = (young: boolean) => records.filter(({ day }) => isYoung(day) === young)
  return { young: posterior(enteredSizes(usual), of(true)), grown: posterior([1], of(false)) }
}

/** The entered sizes of all centres, each as often as its animals come. */
function enteredSizes(usual: readonly UsualYear[]): number[] {
  const sums: number[] = []
  let total = 0
  for (const { eventSizes, animalsPerYear } of usual) {
    const all = eventSizes.reduce((sum, share) => sum + share, 0)
    if (!(all > 0)) continue
    total += animalsPerYear
    for (const [b, share] of eventSizes.entries()) sums[b] = (sums[b] ?? 0) + (animalsPerYear * share) / all
  }
  return total > 0 ? sums.map(sum => sum / total) : [1]
}

function posterior(prior: readonly number[], records: readonly RecordedArrival[]): number[] {
  const length = records.reduce((most, { animals }) => Math.max(most, animals), prior.length)
  const sums = Array.from({ length }, (_, b) => SIZES_WEIGHT * (prior[b] ?? 0))
  for (const { animals } of records) sums[animals - 1] = (sums[animals - 1] ?? 0) + 1
  return sums.map(sum => sum / (SIZES_WEIGHT + records.length))
}
