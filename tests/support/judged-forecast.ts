/** Forecasts learned from generated histories, judged against what is truly to come: figures of one history at a time. */

import type { Pmf } from '#lib/judge/counts.ts'
import { coverageUnder, fractionalCoverage } from '#lib/judge/coverage.ts'
import { crpsOf } from '#lib/judge/crps.ts'
import { NAIVES, type Naive, naiveSpread } from '#lib/judge/naive.ts'
import { chancesOf, forecastLearned, learnNetwork } from './learned-network.ts'
import { trueDemand } from './true-demand.ts'
import { atHorizon, cellOf, liveHistory } from './true-history.ts'
import { drawWorld, HOUSINGS, type Size } from './true-world.ts'

export const HORIZONS = [7, 28, 90] as const
/** Draws of what is left to chance behind a true distribution. */
const DRAWS = 400

/**
 * Means over the cells of one history, at one horizon. `exact`, `realised`: how much of the truth, and of what came, lay in
 * the middle 80 %; `sure...`: without the doubt. `ideal...`: of the true distribution. Scores are means under the truth.
 */
export type Judged = {
  readonly exact: number
  readonly realised: number
  readonly sureExact: number
  readonly sureRealised: number
  readonly idealRealised: number
  readonly score: number
  readonly sureScore: number
  readonly idealScore: number
  readonly naiveScores: Readonly<Record<Naive, number>>
}

/** Draws a world and its history, learns, forecasts and judges; one a horizon. */
export function judgeHistory(size: Size, seed: number): Judged[] {
  const world = drawWorld(size, seed)
  const history = liveHistory(world, seed ^ 0x2545f491)
  const truths = trueDemand(world, history, HORIZONS, DRAWS, seed ^ 0x6c078965)
  const { sure, doubtful } = forecastLearned(world, history, learnNetwork(world, history))
  return HORIZONS.map((horizon, h) => {
    const cells = Array.from({ length: size.centres }, (_, centre) =>
      HOUSINGS.map((housing): Judged => {
        const cell = cellOf(centre, housing)
        const truth = normal(truths[cell]![h]!)
        const [with_, without] = [
          chancesOf(doubtful, centre, housing, horizon),
          chancesOf(sure, centre, housing, horizon),
        ]
        const counts = history.counts[cell]!
        const came = counts[atHorizon(horizon)]!
        const past = { from: 0, counts: counts.subarray(0, atHorizon(0) + 1) }
        return {
          exact: coverageUnder(truth, with_),
          realised: fractionalCoverage(with_, came),
          sureExact: coverageUnder(truth, without),
          sureRealised: fractionalCoverage(without, came),
          idealRealised: fractionalCoverage(truth, came),
          score: scoreUnder(truth, with_),
          sureScore: scoreUnder(truth, without),
          idealScore: scoreUnder(truth, truth),
          naiveScores: byNaive(naive => {
            const told = naiveSpread(naive, past, horizon)
            return told.kind === 'told' ? scoreUnder(truth, told.pmf) : Number.NaN
          }),
        }
      }),
    ).flat()
    return meanOf(cells)
  })
}

/** The truth cut where less than a millionth lies beyond, and made whole again. */
function normal(pmf: Float64Array): Float64Array {
  let last = pmf.length - 1
  for (let beyond = 0; last > 0 && beyond + pmf[last]! < 1e-7; last--) beyond += pmf[last]!
  const kept = pmf.slice(0, last + 1)
  const total = kept.reduce((a, b) => a + b, 0)
  return kept.map(one => one / total)
}

function scoreUnder(truth: Float64Array, pmf: Pmf): number {
  let score = 0
  for (let count = 0; count < truth.length; count++)
    if (truth[count]! > 0) score += truth[count]! * crpsOf(pmf, count)
  return score
}

function byNaive(of: (naive: Naive) => number): Record<Naive, number> {
  return Object.fromEntries(NAIVES.map(naive => [naive, of(naive)])) as Record<Naive, number>
}

function meanOf(all: readonly Judged[]): Judged {
  const mean = (of: (one: Judged) => number) => all.reduce((sum, one) => sum + of(one), 0) / all.length
  return {
    exact: mean(one => one.exact),
    realised: mean(one => one.realised),
    sureExact: mean(one => one.sureExact),
    sureRealised: mean(one => one.sureRealised),
    idealRealised: mean(one => one.idealRealised),
    score: mean(one => one.score),
    sureScore: mean(one => one.sureScore),
    idealScore: mean(one => one.idealScore),
    naiveScores: byNaive(naive => mean(one => one.naiveScores[naive])),
  }
}
