/**
 * Where the plan is centred once records have spoken: a small grid over how far the plan is out.
 * Promise: 13 stretches of the length, 3 spreads, 7 log-odds of an early death, weighed by their chance to give the
 * records; without records the weights are the prior's. The mixture becomes the prior of the stage's posterior. A
 * weight for the plan chosen by likelihood would measure ties instead, and run off (engine, section 1).
 */
import type { StageEstimate } from '#lib/forecast/model.ts'
import type { Evidence, StageEvidence } from './evidence.ts'
import {
  CELLS_A_STRETCH,
  EARLY_ODDS,
  firstGrid,
  GRID_CELLS,
  gridLikelihood,
  LOG_STRETCHES,
  mixtureOf,
  type PlanGrid,
  planGrid,
} from './plan-grid.ts'
import { leanOnPrior } from './posterior.ts'

/** The standard deviation of the stretches' prior. */
const STRETCH_SD = 0.4
/** The prior of the spreads; no source, ours. */
export const SPREAD_PRIOR = [0.25, 0.5, 0.25] as const
/** The sd of the log-odds' prior; no source, ours. */
const EARLY_SD = 0.75

/** The second grid is never narrower than this, so that weights on neighbours always differ by something. */
const LEAST_SD = 0.02

/** Log of the prior weights of the grid's cells, given that of each stretch and the sd of log-odds; they need not sum to 1. */
export function logPriorOf(logStretchPrior: readonly number[], earlySd = EARLY_SD): Float64Array {
  return Float64Array.from(
    logStretchPrior.flatMap(log =>
      SPREAD_PRIOR.flatMap(spread =>
        EARLY_ODDS.map(odds => log + Math.log(spread) - (odds / earlySd) ** 2 / 2),
      ),
    ),
  )
}

/** The grid's own prior: log-normal stretch with sd 0.4. */
export const PLAN_PRIOR = logPriorOf(LOG_STRETCHES.map(log => -((log / STRETCH_SD) ** 2) / 2))

/** Weights that sum to 1 from their logarithms. */
export function weightsOf(logs: Float64Array): Float64Array {
  const top = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)
  const weights = logs.map(log => Math.exp(log - top))
  const total = weights.reduce((a, b) => a + b, 0)
  return weights.map(weight => weight / total)
}

/**
 * How many times the plan's the time to ready is: its geometric mean, 1 without records, and the range that holds it
 * with 80 % chance.
 */
export type Stretch = { readonly mean: number; readonly low: number; readonly high: number }

/**
 * A plan centred by records. `centre`: the mixture, evidence of one animal. `grid` and `drawWeights`: the cells it is
 * mixed of, and their chances in a draw. `early`: the odds of a death in this stage over those of the plan.
 */
export type Centred = {
  readonly centre: StageEvidence
  readonly stretch: Stretch
  readonly early: number
  readonly grid: PlanGrid
  readonly drawWeights: Float64Array
}

/**
 * Centres a plan by records, for a posterior that will count the plan as `weight` animals. The first grid has the
 * prior's 13 stretches; a second one 13 about what the first found, three of its standard deviations either way, so
 * that the answer is finer than the grid when records are many. `logPrior`: log-weights of the first grid's cells,
 * from a parent where there is one.
 *
 * In draws the likelihood counts to the power of the lean on the plan, c/(c + n): the records are counted again with
 * the hazards, and this power makes the two together vary as n animals do. (For the mean stay: a cell's variance
 * v/n enters by (c/(c+n))^2, the Dirichlet's is v/(c+n); their sum is v/n when v/n is first multiplied by (c+n)/c.)
 * Throws RangeError where the plan's shares or lengths are none.
 */
export function centreOf(
  estimate: StageEstimate,
  records: Evidence,
  weight: number,
  logPrior: Float64Array = PLAN_PRIOR,
): Centred {
  const { days } = records
  const grid = firstGrid(estimate, days)
  const first = gridLikelihood(grid, records)
  const power = leanOnPrior(mixtureOf(grid, weightsOf(plus(first, logPrior))), weight, records)
  const nodes = finerStretches(weightsOf(plus(first, logPrior, power)))
  const finer = planGrid(estimate, days, nodes)
  const likelihood = gridLikelihood(finer, records)
  const prior = priorAt(nodes, logPrior)
  const weights = weightsOf(plus(likelihood, prior))
  return {
    centre: mixtureOf(finer, weights),
    stretch: stretchOf(nodes, weights),
    early: earlyOf(weights),
    grid: finer,
    drawWeights: weightsOf(plus(likelihood, prior, power)),
  }
}

function plus(likelihood: Float64Array, prior: Float64Array, power = 1): Float64Array {
  return likelihood.map((one, cell) => power * one + prior[cell]!)
}

/** Weights by stretch. */
function byStretch(weights: Float64Array): number[] {
  const sums = new Array<number>(weights.length / CELLS_A_STRETCH).fill(0)
  for (const [cell, weight] of weights.entries()) sums[Math.floor(cell / CELLS_A_STRETCH)]! += weight
  return sums
}

function finerStretches(weights: Float64Array): number[] {
  const chances = byStretch(weights)
  const mean = chances.reduce((sum, chance, i) => sum + chance * LOG_STRETCHES[i]!, 0)
  const step = LOG_STRETCHES[1]! - LOG_STRETCHES[0]!
  // A weight on one node stands for the stretches up to half a step away.
  const variance = chances.reduce(
    (sum, chance, i) => sum + chance * (LOG_STRETCHES[i]! - mean) ** 2,
    step ** 2 / 12,
  )
  const sd = Math.max(LEAST_SD, Math.sqrt(variance))
  return LOG_STRETCHES.map((_, i) => mean + ((i - 6) / 2) * sd)
}

/** The prior's log-weights at other stretches, linear between its nodes and beyond them. */
function priorAt(nodes: readonly number[], logPrior: Float64Array): Float64Array {
  const step = LOG_STRETCHES[1]! - LOG_STRETCHES[0]!
  return Float64Array.from({ length: GRID_CELLS }, (_, cell) => {
    const at = (nodes[Math.floor(cell / CELLS_A_STRETCH)]! - LOG_STRETCHES[0]!) / step
    const left = Math.min(LOG_STRETCHES.length - 2, Math.max(0, Math.floor(at)))
    const low = logPrior[left * CELLS_A_STRETCH + (cell % CELLS_A_STRETCH)]!
    const high = logPrior[(left + 1) * CELLS_A_STRETCH + (cell % CELLS_A_STRETCH)]!
    return low + (at - left) * (high - low)
  })
}

function stretchOf(nodes: readonly number[], weights: Float64Array): Stretch {
  const chances = byStretch(weights)
  const step = nodes[1]! - nodes[0]!
  const mean = Math.exp(chances.reduce((sum, chance, i) => sum + chance * nodes[i]!, 0))
  const quantile = (wanted: number) => {
    let below = 0
    for (const [i, chance] of chances.entries()) {
      if (below + chance >= wanted) return Math.exp(nodes[i]! + step * ((wanted - below) / chance - 0.5))
      below += chance
    }
    return Math.exp(nodes.at(-1)! + step / 2)
  }
  return { mean, low: quantile(0.1), high: quantile(0.9) }
}

/** The geometric mean of the factor on the odds of death. */
function earlyOf(weights: Float64Array): number {
  return Math.exp(
    weights.reduce((sum, weight, cell) => sum + weight * EARLY_ODDS[cell % EARLY_ODDS.length]!, 0),
  )
}
