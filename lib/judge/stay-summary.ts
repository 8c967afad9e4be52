/**
 * Single stays of a backtest: what is kept of each, and what all of them say together.
 * Promise: pure; of a prediction only those chances are kept that the scores ask for, and the scores are the same as of the
 * whole prediction. Stays that go on count as far as they are known.
 */
import type { JudgedOrigin, JudgedStay } from '#lib/domain/judged-forecast.ts'
import { type Brier, brierOf } from './brier.ts'
import { type PredictedStay, stayingOn } from './single-stay.ts'
import { type StayCalibration, stayCalibration } from './stay-calibration.ts'

/** Days after the first on which it is asked whether a stay goes on. */
export const STAY_DAYS = [7, 28, 90] as const
/** A prediction reaches beyond all of them. */
const REACH_DAYS = Math.max(...STAY_DAYS) + 1

/** Days that the prediction of a stay must reach, to be judged by how it ended. */
export function daysToPredict({ until }: Pick<PredictedStay, 'until'>): number {
  return Math.max(REACH_DAYS, until + 1)
}

/** What is kept of a stay. Throws RangeError where its prediction is too short. */
export function judgedStay(stay: PredictedStay): JudgedStay {
  const { staying, until, isEnded } = stay
  const days = daysToPredict(stay)
  if (staying.length < days) throw new RangeError(`staying needs ${days} days, got ${staying.length}`)
  return {
    until,
    isEnded,
    outlasts: [stayingOn(stay, until - 1), stayingOn(stay, until)],
    still: STAY_DAYS.map(day => stayingOn(stay, day)),
  }
}

/** What all judged stays say. `brier`: of each of STAY_DAYS. */
export type StaySummary = {
  readonly ended: number
  readonly calibration: StayCalibration
  readonly brier: readonly Brier[]
}

/** The calibration and scores of all stays of a backtest; null where none was judged. */
export function staySummaryOf(judged: readonly JudgedOrigin[]): StaySummary | null {
  const stays = judged.flatMap(({ stays = [] }) => stays.map(predictedOf))
  const calibration = stayCalibration(stays)
  if (calibration === null) return null
  return {
    ended: stays.filter(({ isEnded }) => isEnded).length,
    calibration,
    brier: STAY_DAYS.map(day => brierOf(stays, day)),
  }
}

/** A prediction with the chances that were kept; on other days the last one before stands. */
function predictedOf({ until, isEnded, outlasts: [before, after], still }: JudgedStay): PredictedStay {
  const kept = new Map<number, number>([
    ...STAY_DAYS.map((day, i) => [day, still[i]!] as const),
    [until - 1, before],
    [until, after],
  ])
  let last = 1
  const staying = Float64Array.from({ length: daysToPredict({ until }) }, (_, d) => {
    last = kept.get(d) ?? last
    return last
  })
  return { staying, until, isEnded }
}
