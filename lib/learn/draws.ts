/**
 * Draws of a stage's hazards from what is known of it.
 * Promise: each draw is one way the stage may truly be, the same for the same law, draw and evidence on every machine.
 * Each day's chances have a seed of their own by (law, day, draw), so a new record moves the days it speaks of and
 * leaves the others as they were.
 */

import { UNBARRED } from '#lib/domain/housing.ts'
import type { Hazards } from '#lib/forecast/hazards.ts'
import { logGammaDraw, sharesOfLogs } from '#lib/numerics/gamma.ts'
import { newStream, seededRandom, seedOf } from '#lib/numerics/random.ts'
import type { Evidence } from './evidence.ts'
import { lawAt } from './plan-grid.ts'
import { posteriorOf } from './posterior.ts'
import type { Centred } from './prior-grid.ts'

/**
 * One draw of hazards: (died, euthanased, left, kept) of a day from their Dirichlet, passing from its beta, independent
 * over days. `law` names the stage's law, `draw` is the number of the draw.
 */
export function drawHazards(evidence: Evidence, law: string, draw: number): Hazards {
  const { days } = evidence
  const made = {
    died: new Float64Array(days),
    euthanased: new Float64Array(days),
    left: new Float64Array(days),
  }
  const passes = new Float64Array(days)
  const base = seedOf(law, draw)
  const { random, reseed } = newStream()
  const gamma = (shape: number, day: number, of: number) => {
    if (shape === 0) return Number.NEGATIVE_INFINITY
    reseed(seedOf(base, day, of))
    return logGammaDraw(shape, random)
  }
  const logs = [0, 0, 0, 0]
  for (let d = 0; d < days; d++) {
    const total = evidence.died[d]! + evidence.euthanased[d]! + evidence.left[d]! + evidence.kept[d]!
    if (total > 0) {
      for (let of = 0; of < 3; of++) logs[of] = gamma(evidence[UNBARRED[of]!][d]!, d, of)
      logs[3] = gamma(evidence.kept[d]!, d, 3)
      const shares = sharesOfLogs(logs)
      for (let of = 0; of < 3; of++) made[UNBARRED[of]!][d] = shares[of]!
    }
    const able = [gamma(evidence.stayed[d]!, d, 4), gamma(evidence.onward[d]!, d, 5)]
    passes[d] = sharesOfLogs(able)[1]!
  }
  return { days, ...made, passes }
}

/**
 * One draw of a stage whose plan was centred by records: the cell of the grid first, by a number that belongs to
 * (law, draw), then the hazards from that cell's law times `weight` plus the records. How far the plan is out is
 * thus shared by all days of a draw, as it is by all animals; without it a nominal 90 % covered 60 to 80 %.
 */
export function drawCentred(
  centred: Centred,
  weight: number,
  records: Evidence,
  law: string,
  draw: number,
): Hazards {
  const cell = cellAt(centred.drawWeights, seededRandom(seedOf(law, draw))())
  return drawHazards(posteriorOf(lawAt(centred.grid, cell), weight, records), law, draw)
}

/** The cell at which the running sum of weights passes u; cells lie by stretch, so a little more u is a little longer. */
function cellAt(weights: Float64Array, u: number): number {
  let below = 0
  for (const [cell, weight] of weights.entries()) {
    below += weight
    if (u < below) return cell
  }
  return weights.length - 1
}
