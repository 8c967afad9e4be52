/**
 * Where the plan is centred once records have spoken: a small grid over how far the plan is out.
 * Promise: 13 stretches of the length, 3 spreads, 7 log-odds of an early death, weighed by their chance to give the
 * records; without records the weights are the prior's. The mixture becomes the prior of the stage's posterior. A
 * weight for the plan chosen by likelihood would measure ties instead, and run off (engine, section 1).
 */
import { newByExit, UNBARRED } from '#lib/domain/housing.ts'
import type { LengthEstimate, StageEstimate } from '#lib/forecast/model.ts'
import { addEvidence, type Evidence, evidenceOfPlan, type StageEvidence } from './evidence.ts'
import { leanOnPrior } from './posterior.ts'

/** Logarithms of the stretches, three standard deviations either way, and the standard deviation of their prior. */
export const LOG_STRETCHES: readonly number[] = Array.from({ length: 13 }, (_, i) => (i - 6) * 0.2)
export const STRETCH_SD = 0.4
/** Factors on the log of 90th percentile over median. */
export const SPREADS = [0.7, 1, 1.4] as const
/** Their prior; no source, ours. */
export const SPREAD_PRIOR = [0.25, 0.5, 0.25] as const
/** What is added to the log-odds that the stage ends by death, and the sd of their prior; no source, ours. */
export const EARLY_ODDS: readonly number[] = Array.from({ length: 7 }, (_, i) => (i - 3) * 0.5)
export const EARLY_SD = 0.75
/** Cells of the grid: stretch outermost, then spread, then log-odds. */
export const GRID_CELLS = LOG_STRETCHES.length * SPREADS.length * EARLY_ODDS.length
const CELLS_A_STRETCH = SPREADS.length * EARLY_ODDS.length

/** The least chance that a cell gives a recorded day: no single record rules out a cell. */
const LEAST_CHANCE = 1e-9
/** The second grid is never narrower than this, so that weights on neighbours always differ by something. */
const LEAST_SD = 0.02

/**
 * The plan as evidence, for each cell of the grid of these stretches: `laws[cell]` is one animal's evidence when the
 * plan's times to ready are stretched and spread so, and its odds of death moved so. Deaths keep their times.
 */
export function planGrid(
  estimate: StageEstimate,
  days: number,
  logStretches = LOG_STRETCHES,
): StageEvidence[] {
  return logStretches.flatMap(logStretch =>
    SPREADS.flatMap(spread =>
      EARLY_ODDS.map(odds => evidenceOfPlan(stretched(estimate, logStretch, spread, odds), days)),
    ),
  )
}

/** First grids, which do not depend on records, by the estimate they were made from. */
const firstGrids = new WeakMap<StageEstimate, StageEvidence[]>()

/** The grid of the prior's stretches; the same object for the same estimate and days. Do not change it. */
export function firstGrid(estimate: StageEstimate, days: number): StageEvidence[] {
  const kept = firstGrids.get(estimate)
  if (kept?.[0]?.days === days) return kept
  const made = planGrid(estimate, days)
  firstGrids.set(estimate, made)
  return made
}

/** The plan's stage with its time to ready times exp(logStretch), its log-spread times `spread`, and death at other odds. */
export function stretched(
  estimate: StageEstimate,
  logStretch: number,
  spread: number,
  odds: number,
): StageEstimate {
  const change = ({ medianDays, p90Days }: LengthEstimate): LengthEstimate => {
    const median = medianDays * Math.exp(logStretch)
    return { medianDays: median, p90Days: median * (p90Days / medianDays) ** spread }
  }
  const { ready, shares } = estimate
  const early = shares.died + shares.euthanased
  const moved = early > 0 && early < 1 ? early / (early + (1 - early) * Math.exp(-odds)) : early
  const factor = { early: early > 0 ? moved / early : 1, late: early < 1 ? (1 - moved) / (1 - early) : 1 }
  return {
    ...estimate,
    ready:
      ready.kind === 'length'
        ? { ...ready, length: change(ready.length) }
        : { ...ready, lag: change(ready.lag) },
    shares: newByExit(
      exit => shares[exit] * (exit === 'died' || exit === 'euthanased' ? factor.early : factor.late),
    ),
  }
}

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

/** Log-likelihood of records under a law given as evidence of one animal; all of `records`, up to a constant. */
export function logLikelihood(law: Evidence, records: Evidence): number {
  let sum = 0
  const add = (count: number, part: number, whole: number) => {
    if (count > 0) sum += count * Math.log(Math.max(LEAST_CHANCE, whole > 0 ? part / whole : 0))
  }
  for (let d = 0; d < records.days; d++) {
    const all = law.died[d]! + law.euthanased[d]! + law.left[d]! + law.kept[d]!
    for (const exit of UNBARRED) add(records[exit][d]!, law[exit][d]!, all)
    add(records.kept[d]!, law.kept[d]!, all)
    const able = law.onward[d]! + law.stayed[d]!
    add(records.onward[d]!, law.onward[d]!, able)
    add(records.stayed[d]!, law.stayed[d]!, able)
  }
  return sum
}

/** Log-likelihoods of records over the cells of a grid. */
export function gridLikelihood(laws: readonly Evidence[], records: Evidence): Float64Array {
  return Float64Array.from(laws, law => logLikelihood(law, records))
}

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
 * A plan centred by records. `centre`: the mixture, evidence of one animal. `laws` and `drawWeights`: the cells it is
 * mixed of, and their chances in a draw. `early`: the odds of a death in this stage over those of the plan.
 */
export type Centred = {
  readonly centre: StageEvidence
  readonly stretch: Stretch
  readonly early: number
  readonly laws: readonly StageEvidence[]
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
  const laws = planGrid(estimate, days, nodes)
  const likelihood = gridLikelihood(laws, records)
  const prior = priorAt(nodes, logPrior)
  const weights = weightsOf(plus(likelihood, prior))
  return {
    centre: mixtureOf(laws, weights),
    stretch: stretchOf(nodes, weights),
    early: earlyOf(weights),
    laws,
    drawWeights: weightsOf(plus(likelihood, prior, power)),
  }
}

/** The weighted sum of laws: masses are mixed, never hazards. */
export function mixtureOf(laws: readonly StageEvidence[], weights: Float64Array): StageEvidence {
  const days = laws[0]!.days
  const mixed = addEvidence(
    laws.map((of, cell) => ({ weight: weights[cell]!, of })),
    days,
  )
  const later = laws.map((law, cell) => weights[cell]! * law.stayed[days - 1]!)
  const total = later.reduce((a, b) => a + b, 0)
  const share = (cell: number) => (total > 0 ? later[cell]! / total : weights[cell]!)
  return {
    ...mixed,
    beyond: newByExit(exit => laws.reduce((sum, law, cell) => sum + share(cell) * law.beyond[exit], 0)),
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
