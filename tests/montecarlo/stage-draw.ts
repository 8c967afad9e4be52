/**
 * How one stage ends for one animal: the exit and K, the midnights passed. The honest way draws a length in
 * continuous time from a uniform moment of the first day; the fast way has a table of its probabilities.
 */
import { type AliasTable, alias, aliasTable, type Draw } from './random.ts'
import type { Estimate, Exit, Length } from './world.ts'

export const EXITS: readonly Exit[] = ['onward', 'died', 'euthanased', 'left']
const ONWARD = 0
const LEFT = 3

/** Gives 4 K + the index of the exit, for a stage entered on this day of the calendar and not ended before `age` midnights. */
export type StageDraw = (entryDay: number) => number

const Z90 = 1.2815515655446004
const DAY_MS = 86_400_000

function sigmaOf({ medianDays, p90Days }: Length): number {
  return Math.log(p90Days / medianDays) / Z90
}

/** Draws in continuous time. */
export function honestDraw(estimate: Estimate, age: number, draw: Draw, normal: Draw): StageDraw {
  const exits = alias(
    EXITS.map(exit => estimate.shares[exit]),
    draw,
  )
  const { ready, leastDays = 0 } = estimate
  const lag = ready.kind === 'length' ? ready.length : ready.lag
  const lengths = [lag, estimate.died, estimate.euthanased, lag]
  const sigmas = lengths.map(sigmaOf)
  const waits = new Map<number, number>()
  const waitOn = (gate: Gate, entryDay: number): number => {
    const kept = waits.get(entryDay) ?? opensAfter(gate, entryDay, leastDays)
    waits.set(entryDay, kept)
    return kept
  }
  const once = (entryDay: number): number => {
    const exit = exits()
    let k = Math.floor(draw() + lengths[exit]!.medianDays * Math.exp(sigmas[exit]! * normal()))
    if (ready.kind === 'date gate' && (exit === ONWARD || exit === LEFT)) k += waitOn(ready, entryDay)
    if (exit === ONWARD && k < leastDays) k = leastDays
    return 4 * k + exit
  }
  return entryDay => {
    let found = once(entryDay)
    while (found < 4 * age) found = once(entryDay)
    return found
  }
}

type Gate = Extract<Estimate['ready'], { kind: 'date gate' }>

/** Days until the gate lets pass, day by day on the calendar. */
function opensAfter(gate: Gate, entryDay: number, leastDays: number): number {
  let day = entryDay + Math.max(gate.minDays, leastDays)
  const closes = gate.closes ?? '12-31'
  while (true) {
    const date = new Date(day * DAY_MS).toISOString().slice(5, 10)
    const isOpen =
      gate.opens <= closes ? date >= gate.opens && date <= closes : date >= gate.opens || date <= closes
    if (isOpen) return day - entryDay
    day++
  }
}

/** A table of the same distribution over 4 (K - age) + exit; undefined for a stage that ends by date. */
export function stageTable(estimate: Estimate, age: number, days: number): AliasTable | undefined {
  if (estimate.ready.kind === 'date gate') return undefined
  const { leastDays = 0 } = estimate
  const lengths = [estimate.ready.length, estimate.died, estimate.euthanased, estimate.ready.length]
  const weights = new Float64Array(4 * (days + 1))
  lengths.forEach((length, exit) => {
    const share = estimate.shares[EXITS[exit]!]
    const held = exit === ONWARD ? leastDays : 0
    let before = age <= held ? 1 : tailOf(length, age - 1)
    for (let k = 0; k <= days; k++) {
      if (age + k < held) continue
      const after = k === days ? 0 : tailOf(length, age + k)
      weights[4 * k + exit] = share * (before - after)
      before = after
    }
  })
  return aliasTable(weights)
}

const tails = new Map<string, number[]>()

/** As meanTail, each computed once. */
function tailOf(length: Length, k: number): number {
  const key = `${length.medianDays} ${length.p90Days}`
  const kept = tails.get(key) ?? []
  tails.set(key, kept)
  kept[k] ??= meanTail(length, k)
  return kept[k]
}

/** The mean of the survival over the day [k, k + 1], by Simpson's rule with 32 steps. */
export function meanTail(length: Length, k: number): number {
  const sigma = sigmaOf(length)
  const steps = 32
  let sum = 0
  for (let i = 0; i <= steps; i++) {
    const t = k + i / steps
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2
    sum += weight * (t <= 0 ? 1 : normalTail(Math.log(t / length.medianDays) / sigma))
  }
  return sum / (3 * steps)
}

/** Upper tail of the standard normal, absolute error below 1.5e-7 (Abramowitz and Stegun 7.1.26). */
function normalTail(z: number): number {
  const x = Math.abs(z) / Math.SQRT2
  const t = 1 / (1 + 0.3275911 * x)
  const series =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
  const tail = 0.5 * series * Math.exp(-x * x)
  return z >= 0 ? tail : 1 - tail
}
