/**
 * Whether an animal is in its stage longer than 19 in 20 such stages last, however they end: is it still there?
 * Promise: from the very law of stages that the forecast uses. Days are day numbers. Internal to lib/service: no rows
 * of its own.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import { stageLaw } from '#lib/forecast/stage-law.ts'

const STILL_THERE_BELOW = 0.05

/** No rows: the day from which to ask, when that is today or was before; a stage of today asks nothing. */
export function askedSince(
  estimate: StageEstimate,
  began: DayNumber,
  today: DayNumber,
): DayNumber | undefined {
  const passed = today - began
  if (passed < 1) return undefined
  const { staying } = stageLaw(estimate, began, passed + 1)
  const since = staying.findIndex(chance => chance < STILL_THERE_BELOW)
  return since === -1 || since > passed ? undefined : began + since
}
