/**
 * Which centre for which stage: the cheapest path over stage x centre.
 * Promise: the minimum over every path that no rule cuts, in stages x centres^2 steps. It is exact because where an
 * animal is by stage does not depend on the centre, so the costs of stages and moves add up. Staying wins a tie, then
 * the centre that comes first. Refuses a path without stages. Units: place-days.
 */

/** Costs that differ by less are equal: sums taken in another order differ by about 1e-13. */
const TIE = 1e-9

export type PathProblem = {
  readonly stageCount: number
  readonly centreCount: number
  /** What stage `stage` (from 1) costs at centre `centre`; finite and at least 0. */
  readonly stageCost: (stage: number, centre: number) => number
  /** What it costs to enter `stage` (from 1) at `to` after `from`; null: a rule cuts this move. Never asked for from = to. */
  readonly moveCost: (stage: number, from: number, to: number) => number | null
}

/** Cheapest way on after the first stage, by the centre of the first stage. */
export type BestPaths = {
  /** Cost of all that follows the first stage, moves included. */
  readonly costAfter: (centre: number) => number
  /** Centres by stage, the first being `centre`. */
  readonly pathFrom: (centre: number) => readonly number[]
}

/**
 * Solves the problem backwards from the last stage. `costAfter` and `pathFrom` take a centre index from 0.
 * Throws RangeError when there is no stage.
 */
export function bestPaths(problem: PathProblem): BestPaths {
  const { stageCount, centreCount } = problem
  if (stageCount < 1) throw new RangeError(`a path needs a stage, got ${stageCount}`)
  const next: Int32Array[] = []
  let after = new Float64Array(centreCount)
  for (let stage = stageCount - 1; stage >= 1; stage--) {
    const through = after.map((cost, centre) => cost + problem.stageCost(stage, centre))
    const step = cheapestStep(problem, stage, through)
    next[stage] = step.to
    after = step.cost
  }
  return {
    costAfter: centre => after[centre]!,
    pathFrom: centre => {
      const path = [centre]
      for (let stage = 1; stage < stageCount; stage++) path.push(next[stage]![path[stage - 1]!]!)
      return path
    },
  }
}

function cheapestStep(problem: PathProblem, stage: number, through: Float64Array<ArrayBuffer>) {
  const cost = through.slice()
  const to = Int32Array.from(through.keys())
  for (let from = 0; from < through.length; from++) {
    for (let other = 0; other < through.length; other++) {
      const move = other === from ? null : problem.moveCost(stage, from, other)
      if (move === null || move + through[other]! >= cost[from]! - TIE) continue
      cost[from] = move + through[other]!
      to[from] = other
    }
  }
  return { cost, to }
}
