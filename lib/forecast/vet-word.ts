/**
 * "Two more weeks": a vet's estimate for one animal, taken into what is known of its stage.
 * Promise: going on is stretched from today on so that its median moves towards the vet's by a stated weight; what went
 * before, the chances of dying, and the shape of the rest stay. It speaks of this animal only, so it never enters what
 * is learned of others; how it ended does.
 */
import { VET_WEIGHT } from '#lib/domain/vet-word.ts'
import type { Hazards } from './hazards.ts'

/** The largest cumulative hazard of one day: a chance of 1 has none that a number holds. */
const DAY_MOST = 700
/** The least daily hazard beyond the horizon, so that every stage ends. */
const BEYOND_LEAST = 1e-6

/** What was said of an animal `age` midnights after it entered: it goes on about `inDays` from now (a median, in days). */
export type VetWord = { readonly age: number; readonly inDays: number }

/**
 * Hazards with the rest of going on re-centred. `opens`: days from entry to the opening of a date gate (0 without one),
 * before which nobody goes on whatever was said. With m the median of the time left under `hazards`, were nothing else
 * to end it, the new one is m^(1-weight) times the vet's^weight, exactly where that is whole days and within a fraction
 * of its day else. Throws RangeError unless inDays > 0 and weight is in
 * [0, 1].
 */
export function heeded(hazards: Hazards, { age, inDays }: VetWord, weight = VET_WEIGHT, opens = 0): Hazards {
  if (!(inDays > 0 && Number.isFinite(inDays)))
    throw new RangeError(`inDays needs a positive number, got ${inDays}`)
  if (!(weight >= 0 && weight <= 1)) throw new RangeError(`weight needs a number in [0, 1], got ${weight}`)
  const from = Math.max(0, age - opens)
  const wait = Math.max(0, opens - age)
  const hazard = cumulative(hazards.passes, from)
  const median = medianOf(hazard)
  // Said to be ready before the gate opens: ready on the day it does.
  const said = Math.max(inDays - wait, 0.5)
  const stretch = (said / median) ** weight
  const passes = hazards.passes.map((chance, k) =>
    k < from ? chance : -Math.expm1(hazard((k - from) / stretch) - hazard((k + 1 - from) / stretch)),
  )
  return { ...hazards, passes }
}

/** The median time left until going on, in days from `age`, were nothing else to end the stage. */
export function medianLeft(hazards: Hazards, age: number, opens = 0): number {
  return Math.max(0, opens - age) + medianOf(cumulative(hazards.passes, Math.max(0, age - opens)))
}

/** Cumulative hazard of going on x days from day `from`, linear within a day; beyond the horizon its last day goes on. */
function cumulative(passes: Float64Array, from: number): (x: number) => number {
  const sums = [0]
  for (let k = from; k < passes.length; k++) {
    sums.push(sums[k - from]! + Math.min(DAY_MOST, -Math.log1p(-passes[k]!)))
  }
  const days = sums.length - 1
  const last = Math.max(BEYOND_LEAST, days > 0 ? sums[days]! - sums[days - 1]! : 0)
  return x => {
    if (x >= days) return sums[days]! + (x - days) * last
    const day = Math.floor(x)
    return sums[day]! + (x - day) * (sums[day + 1]! - sums[day]!)
  }
}

function medianOf(hazard: (x: number) => number): number {
  let [low, high] = [0, 1]
  while (hazard(high) < Math.LN2) high *= 2
  for (let round = 0; round < 100; round++) {
    const middle = (low + high) / 2
    if (hazard(middle) < Math.LN2) low = middle
    else high = middle
  }
  return (low + high) / 2
}
