/**
 * Which days of its own history a network's forecasts are judged on, and what is kept of a run that judges them.
 * Promise: pure. Days lie on a fixed grid, so that a later run judges the same days again and new ones beside them; the
 * newest come first, as they say most about the forecast of today.
 */
import type { DayNumber } from './day.ts'
import type { JudgedOrigin } from './judged-forecast.ts'

/** Days ahead that are judged. */
export const JUDGED_HORIZONS = [1, 7, 28, 90] as const
/** Days on record before the first forecast that is judged: half a year has two of the seasons in it. */
export const LEARN_DAYS = 180
const STEP_DAYS = 14

/** A run: `asOf` is the first day that was not over, `origins` the last days known, in the order in which they are judged. */
export type BacktestRun = {
  readonly id: number
  readonly begunAt: Date
  readonly asOf: DayNumber
  /** Of the network: what came true is told by facts up to it. */
  readonly revision: number
  readonly modelVersion: string
  readonly seed: number
  /** The first day on record; null before the first animal. */
  readonly historyFrom: DayNumber | null
  readonly origins: readonly DayNumber[]
  readonly cancelledAt: Date | null
  readonly finishedAt: Date | null
  readonly judged: readonly JudgedOrigin[]
}

/** The days to judge, the newest first: each has the shortest horizon's truth. None where history is too short. */
export function originsToJudge(historyFrom: DayNumber | null, asOf: DayNumber): DayNumber[] {
  if (historyFrom === null) return []
  const first = Math.ceil((historyFrom + LEARN_DAYS) / STEP_DAYS) * STEP_DAYS
  const last = Math.floor((asOf - 1 - JUDGED_HORIZONS[0]) / STEP_DAYS) * STEP_DAYS
  const count = Math.max(0, (last - first) / STEP_DAYS + 1)
  return Array.from({ length: count }, (_, back) => last - back * STEP_DAYS)
}

/** Whether a run is neither finished nor cancelled. */
export function isOpen({
  cancelledAt,
  finishedAt,
}: Pick<BacktestRun, 'cancelledAt' | 'finishedAt'>): boolean {
  return cancelledAt === null && finishedAt === null
}
