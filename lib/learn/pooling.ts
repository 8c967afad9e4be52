/**
 * What stages of the same kind teach about each other: how far plans are out, from a stage to its conditions and from a
 * condition to its species groups and severities.
 * Promise: what a cell is told leaves out its own records, which it counts itself; telling it twice made a nominal 90 %
 * cover too little (engine, section 1). Pooled are deviations from each cell's own plan, on the grid of plan-grid.ts,
 * so a mild case and a severe one keep lengths of their own. Method: exact sums over the tree (Pearl 1988, belief
 * propagation, from memory); without records anywhere every cell gets the plan's own prior.
 */
import { EARLY_ODDS, GRID_CELLS, LOG_STRETCHES, SPREADS } from './plan-grid.ts'
import { logPriorOf, SPREAD_PRIOR } from './prior-grid.ts'

/**
 * One cell: a condition x species group x severity x stage (x season of admission, where that matters).
 * `logLikelihood` is gridLikelihood of its records over the first grid of its own plan; all zeros without records.
 */
export type PoolCell = {
  readonly key: string
  readonly stage: string
  readonly condition: string
  readonly logLikelihood: Float64Array
}

/**
 * Standard deviations of log-stretch and log-odds: of a stage about the plan, of a condition about its stage, of a cell
 * about its condition. Their squares add up to those of the grid's own prior; the split is ours, without source.
 */
const STAGE = { stretch: 0.24, odds: 0.433 }
const CONDITION = { stretch: 0.25, odds: 0.433 }
const CELL = { stretch: 0.2, odds: 0.433 }
/** The chance that a child has its parent's spread, rather than one drawn anew. */
const SAME_SPREAD = 0.8

/** Row p, column c: the chance of child c given parent p. */
type Kernel = readonly (readonly number[])[]
type Step = { readonly stretch: Kernel; readonly spread: Kernel; readonly odds: Kernel }

const CONDITION_STEP = stepOf(CONDITION)
const CELL_STEP = stepOf(CELL)
const STAGE_PRIOR = logPriorOf(
  LOG_STRETCHES.map(log => -((log / STAGE.stretch) ** 2) / 2),
  STAGE.odds,
)

/**
 * For each cell its log-prior over the first grid, for centreOf: from the other cells of its condition and, more
 * faintly, from the other conditions of its stage. Cells need distinct keys; throws RangeError otherwise.
 * Cost: some 30,000 multiply-adds a cell.
 */
export function pooledPriors(cells: readonly PoolCell[]): Map<string, Float64Array> {
  const priors = new Map<string, Float64Array>()
  for (const ofStage of groups(cells, cell => cell.stage)) {
    const conditions = groups(ofStage, cell => cell.condition).map(children => {
      const told = children.map(child => toParent(child.logLikelihood, CELL_STEP))
      const all = sumOf(told)
      return { children, told, all, up: toParent(all, CONDITION_STEP) }
    })
    const stage = sumOf([STAGE_PRIOR, ...conditions.map(({ up }) => up)])
    for (const { children, told, all, up } of conditions) {
      const down = toChild(less(stage, up), CONDITION_STEP)
      for (const [i, { key }] of children.entries()) {
        if (priors.has(key)) throw new RangeError(`cells need distinct keys, got ${key} twice`)
        priors.set(key, toChild(sumOf([down, less(all, told[i]!)]), CELL_STEP))
      }
    }
  }
  return priors
}

function groups(cells: readonly PoolCell[], by: (cell: PoolCell) => string): PoolCell[][] {
  const found = new Map<string, PoolCell[]>()
  for (const cell of cells) {
    const group = found.get(by(cell))
    if (group === undefined) found.set(by(cell), [cell])
    else group.push(cell)
  }
  return [...found.values()]
}

/** What a child's log-likelihood says of its parent: summed over what the child may be, given the parent. */
function toParent(logs: Float64Array, { stretch, spread, odds }: Step): Float64Array {
  return throughKernels(logs, [stretch, spread, odds])
}

/** What a parent's log-weights say of a child. */
function toChild(logs: Float64Array, { stretch, spread, odds }: Step): Float64Array {
  return throughKernels(logs, [turned(stretch), turned(spread), turned(odds)])
}

function turned(kernel: Kernel): Kernel {
  return kernel[0]!.map((_, c) => kernel.map(row => row[c]!))
}

/** The logarithm of the kernels' product applied to weights, one axis after another. */
function throughKernels(
  logs: Float64Array,
  [stretch, spread, odds]: readonly [Kernel, Kernel, Kernel],
): Float64Array {
  const top = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)
  let weights: Float64Array = logs.map(log => Math.exp(log - top))
  weights = alongAxis(weights, stretch, SPREADS.length * EARLY_ODDS.length)
  weights = alongAxis(weights, spread, EARLY_ODDS.length)
  weights = alongAxis(weights, odds, 1)
  return weights.map(weight => top + Math.log(weight))
}

function alongAxis(weights: Float64Array, kernel: Kernel, stride: number): Float64Array {
  const n = kernel.length
  const made = new Float64Array(GRID_CELLS)
  for (let cell = 0; cell < GRID_CELLS; cell++) {
    const at = Math.floor(cell / stride) % n
    const base = cell - at * stride
    let sum = 0
    for (let j = 0; j < n; j++) sum += kernel[at]![j]! * weights[base + j * stride]!
    made[cell] = sum
  }
  return made
}

function stepOf({ stretch, odds }: { readonly stretch: number; readonly odds: number }): Step {
  return {
    stretch: normalKernel(LOG_STRETCHES, stretch),
    odds: normalKernel(EARLY_ODDS, odds),
    spread: SPREADS.map((_, p) =>
      SPREAD_PRIOR.map((chance, c) => (1 - SAME_SPREAD) * chance + SAME_SPREAD * Number(p === c)),
    ),
  }
}

/** Children normally about their parent, on nodes; each row sums to 1. */
function normalKernel(nodes: readonly number[], sd: number): Kernel {
  return nodes.map(parent => {
    const row = nodes.map(child => Math.exp(-(((child - parent) / sd) ** 2) / 2))
    const total = row.reduce((a, b) => a + b)
    return row.map(one => one / total)
  })
}

function sumOf(all: readonly Float64Array[]): Float64Array {
  const sum = new Float64Array(GRID_CELLS)
  for (const one of all) for (let cell = 0; cell < GRID_CELLS; cell++) sum[cell] = sum[cell]! + one[cell]!
  return sum
}

function less(all: Float64Array, part: Float64Array): Float64Array {
  return all.map((one, cell) => one - part[cell]!)
}
