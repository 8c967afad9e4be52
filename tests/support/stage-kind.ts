/**
 * A kind of stage as it truly is across a network: conditions that differ from each other, and cells of a condition that
 * differ less, about one plan. Drawn by a generator that shares nothing with the engine.
 */
import type { RecordedStay } from '#lib/learn/stay.ts'
import { normals, xoshiro } from '#tests/montecarlo/random.ts'
import { drawStays, type StageTruth } from './stage-truth.ts'

export type TrueCell = {
  readonly key: string
  readonly stage: string
  readonly condition: string
  readonly truth: StageTruth
  readonly stays: readonly RecordedStay[]
}

const SPREADS = [0.7, 1, 1, 1.4] as const

/** Three conditions of four cells; the cells of a condition have so many stays each. */
export function drawKind(plan: StageTruth, stays: readonly number[], seed: number): TrueCell[] {
  const normal = normals(xoshiro(seed * 101 + 5))
  const even = xoshiro(seed * 77 + 3)
  const oneSpread = () => SPREADS[Math.floor(even() * SPREADS.length)]!
  const away = (from: readonly [number, number], stretch: number, odds: number): [number, number] => [
    from[0] + stretch * normal(),
    from[1] + odds * normal(),
  ]
  const stage = away([0, 0], 0.24, 0.433)
  return [0, 1, 2].flatMap(c => {
    const condition = away(stage, 0.25, 0.433)
    const spread = oneSpread()
    return stays.map((n, k) => {
      const [stretch, logOdds] = away(condition, 0.2, 0.433)
      const odds = (plan.early / (1 - plan.early)) * Math.exp(logOdds)
      const truth: StageTruth = {
        early: odds / (1 + odds),
        death: plan.death,
        ready: [plan.ready[0] * Math.exp(stretch), plan.ready[1] * (even() < 0.8 ? spread : oneSpread())],
      }
      return {
        key: `${c}:${k}`,
        stage: 'a stage',
        condition: `condition ${c}`,
        truth,
        stays: drawStays(truth, n, seed * 7919 + c * 31 + k),
      }
    })
  })
}
