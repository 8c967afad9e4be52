/**
 * What a page draws of a learned stage: the chance to be still in it, day by day, with its band, beside the plan's.
 * Promise: the line is the posterior's exact mean; the band holds the true curve's point of a day with 80 % chance,
 * from seeded draws, so the same stage is drawn alike each time. Arrays have one number a day since entry.
 */

import { UNBARRED } from '#lib/domain/housing.ts'
import { lawOfHazards } from '#lib/forecast/hazards.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import { drawCentred } from './draws.ts'
import { type Evidence, evidenceOfPlan, firstDays } from './evidence.ts'
import { meanLaw } from './hazards.ts'
import type { LearnedStage } from './learn-stages.ts'
import { firstDaysOf } from './plan-grid.ts'
import { PLAN_WEIGHT } from './posterior.ts'

/** Draws behind a band: its edges then lie within about a 30th of its width. */
const BAND_DRAWS = 200
/** A curve ends where fewer than this are in the stage still, by the plan and by what was learned. */
const LEAST_SHOWN = 0.01

/**
 * P(K > k) of the plan, learned, and the 10 % and 90 % points of the draws; `atRisk`: animals whose day k was recorded
 * (parts where an end lies between two dates). All of one length.
 */
export type StageCurve = {
  readonly plan: Float64Array
  readonly learned: Float64Array
  readonly low: Float64Array
  readonly high: Float64Array
  readonly atRisk: Float64Array
}

export type CurveParts = { readonly opens?: number; readonly weight?: number; readonly seed?: number }

/**
 * The curve of a learned stage over the days on which somebody may be in it. `opens`: days from entry to the opening of a
 * date gate, 0 without one. `weight`: that with which the stage was learned. `seed`: another one draws another band.
 */
export function curveOf(
  estimate: StageEstimate,
  { key, centred, records, posterior }: LearnedStage,
  { opens = 0, weight = PLAN_WEIGHT, seed = 0 }: CurveParts = {},
): StageCurve {
  const plan = meanLaw(evidenceOfPlan(estimate, records.days), opens).staying
  const learned = meanLaw(posterior, opens).staying
  const days = daysShown(plan, learned)
  const shown = { ...centred, grid: firstDaysOf(centred.grid, days) }
  const recorded = firstDays(records, days)
  const draws = Array.from({ length: BAND_DRAWS }, (_, draw) => {
    const hazards = drawCentred(shown, weight, recorded, `${key}#${seed}`, draw)
    return lawOfHazards(hazards, posterior.beyond, opens).staying
  })
  const low = new Float64Array(days)
  const high = new Float64Array(days)
  const points = new Float64Array(BAND_DRAWS)
  for (let d = 0; d < days; d++) {
    for (const [draw, staying] of draws.entries()) points[draw] = staying[d]!
    points.sort()
    low[d] = points[Math.floor(0.1 * BAND_DRAWS)]!
    high[d] = points[Math.ceil(0.9 * BAND_DRAWS) - 1]!
  }
  return {
    plan: plan.slice(0, days),
    learned: learned.slice(0, days),
    low,
    high,
    atRisk: trialsByDay(records).slice(0, days),
  }
}

function daysShown(plan: Float64Array, learned: Float64Array): number {
  let days = learned.length
  while (days > 1 && Math.max(plan[days - 2]!, learned[days - 2]!) < LEAST_SHOWN) days--
  return days
}

/** Animals in the stage on each day since entry. */
function trialsByDay(records: Evidence): Float64Array {
  return records.kept.map((kept, d) => UNBARRED.reduce((sum, exit) => sum + records[exit][d]!, kept))
}
