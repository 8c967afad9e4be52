/**
 * Learning stage after stage, for whatever is made of them: a run that is published, or a forecast that is judged.
 * Promise: others may work between two steps, and whoever ends it does so there.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { StageCell } from '#lib/learn/cells.ts'
import { type LearnedStage, learnEach, type StageRecords } from '#lib/learn/learn-stages.ts'
import { PLAN_WEIGHT } from '#lib/learn/posterior.ts'

export type LearningParts = {
  /** Told after each step, two a stage: how many are done, of how many. */
  readonly onStep?: (done: number, of: number) => Promise<void>
  /** Ends the learning between two steps, by throwing its reason. */
  readonly signal?: AbortSignal
}

/** No rows: learns the cells one after the other. Others may work between two steps. */
export async function learnCells(
  cells: readonly StageCell[],
  records: readonly StageRecords[],
  asOf: DayNumber,
  { onStep, signal }: LearningParts,
  keep: (cell: StageCell, learned: LearnedStage) => void,
): Promise<void> {
  const left = cells.values()
  let steps = 0
  for (const learned of learnEach(records, asOf, PLAN_WEIGHT)) {
    signal?.throwIfAborted()
    const cell = learned === null ? undefined : left.next().value
    if (learned !== null && cell !== undefined) keep(cell, learned)
    steps++
    await onStep?.(steps, 2 * cells.length)
    await new Promise(done => setImmediate(done))
  }
}
