/**
 * Draws of all that animals and days share, as knowledge a forecast can be made with.
 * Promise: one draw has every stage and every group's arrivals one way they may truly be; the same evidence and draw give the
 * same. Draws of different stages and groups are independent of each other.
 */
import type { LearnedRates } from '#lib/domain/learned-arrivals.ts'
import type { LearnedHazards } from '#lib/domain/stage-cell.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { drawArrivals, drawMix, drawShares } from './arrival-draws.ts'
import type { LearnedArrivals } from './arrivals.ts'
import { drawCentred } from './draws.ts'
import type { LearnedStage } from './learn-stages.ts'
import { SHARED_DRAWS } from './shared-variance.ts'

/** Draws of what was learned of stages, kept small: hazards only, by draw and key. */
export type StageDraws = readonly Map<string, LearnedHazards>[]

/** Room for the draws of a run. */
export function newStageDraws(): StageDraws {
  return Array.from({ length: SHARED_DRAWS }, () => new Map())
}

/** Draws one learned stage. */
export function addStageDraws(
  draws: StageDraws,
  { key, centred, records, posterior }: LearnedStage,
  weight: number,
): void {
  for (const [draw, of] of draws.entries()) {
    const hazards = drawCentred(centred, weight, records, key, draw)
    of.set(key, { ...hazards, key, run: `draw ${draw}`, beyond: posterior.beyond })
  }
}

/** Knowledge in which everything is as one draw has it. */
export function drawnTrade(
  trade: Trade,
  stages: StageDraws,
  arrivals: readonly LearnedArrivals[],
  draw: number,
): Trade {
  const learned = stages[draw] ?? new Map()
  return {
    ...trade,
    learned,
    arrivals: new Map(arrivals.map(one => [one.group, drawnRates(one, draw)])),
    doubts: [],
  }
}

function drawnRates(learned: LearnedArrivals, draw: number): LearnedRates {
  const { group, from, sizes } = learned
  return {
    group,
    from,
    sizes,
    run: `draw ${draw}`,
    shares: drawShares(learned, draw),
    mix: drawMix(learned, draw),
    eventsPerDay: drawArrivals(learned, draw),
  }
}
