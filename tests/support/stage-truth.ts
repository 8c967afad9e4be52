/**
 * Stages as they truly are, and animals that live them: a generator that shares nothing with the engine.
 * A stay is a continuous time that begins at a uniform moment of its first day; midnights are counted.
 */
import type { Exit } from '#lib/domain/housing.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import type { RecordedStay } from '#lib/learn/stay.ts'
import { type Draw, normals, xoshiro } from '#tests/montecarlo/random.ts'
import { estimate, TODAY } from './forecasting.ts'

/** Chance of death, and lognormal times in days to death and to ready: median and sd of the log. */
export type StageTruth = {
  readonly early: number
  readonly death: readonly [median: number, sd: number]
  readonly ready: readonly [median: number, sd: number]
}

/** The mean of midnights passed: that of the continuous time, the start being uniform. */
export function trueMean({ early, death, ready }: StageTruth): number {
  const mean = ([median, sd]: readonly [number, number]) => median * Math.exp(sd ** 2 / 2)
  return early * mean(death) + (1 - early) * mean(ready)
}

/** Draws stays one after another. */
export function newStays(truth: StageTruth, seed: number): () => { exit: Exit; midnights: number } {
  const draw: Draw = xoshiro(seed)
  const normal = normals(draw)
  return () => {
    const dies = draw() < truth.early
    const [median, sd] = dies ? truth.death : truth.ready
    return {
      exit: dies ? 'died' : 'onward',
      midnights: Math.floor(draw() + median * Math.exp(sd * normal())),
    }
  }
}

/** n stays of the past, each seen to its end; with `unseenBy` days, some are carried off at a uniform day before it. */
export function drawStays(truth: StageTruth, n: number, seed: number, unseenBy = 0): RecordedStay[] {
  const next = newStays(truth, seed)
  const cut = xoshiro(seed ^ 0x5bd1e995)
  return Array.from({ length: n }, (_, i) => {
    const { exit, midnights } = next()
    const enteredOn = TODAY - 5000
    const seen = unseenBy > 0 ? Math.floor(cut() * unseenBy) : Number.POSITIVE_INFINITY
    const end =
      seen <= midnights
        ? { kind: 'unseen' as const, on: enteredOn + seen }
        : { kind: 'exit' as const, exit, on: enteredOn + midnights }
    return { key: `${seed}:${i}`, enteredOn, end }
  })
}

/** A plan that is right but for its time to ready, which is `stretch` times the truth. */
export function planOf({ early, death, ready }: StageTruth, stretch = 1): StageEstimate {
  const length = ([median, sd]: readonly [number, number]) => ({
    medianDays: median,
    p90Days: median * Math.exp(1.2815515655446004 * sd),
  })
  return estimate({
    ready: { kind: 'length', length: length([ready[0] * stretch, ready[1]]) },
    died: length(death),
    shares: { onward: 1 - early, died: early, euthanased: 0, left: 0 },
  })
}

/** The quantile of some numbers, between neighbours by the rank p (n + 1). */
export function quantile(numbers: readonly number[], p: number): number {
  const sorted = [...numbers].sort((a, b) => a - b)
  const at = Math.min(sorted.length - 1, Math.max(0, p * (sorted.length + 1) - 1))
  const low = Math.floor(at)
  return sorted[low]! + (at - low) * ((sorted[low + 1] ?? sorted[low]!) - sorted[low]!)
}
