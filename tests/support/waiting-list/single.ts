/**
 * Single stays of public data sets, predicted and judged: those of the waiting list on the day on which each began, from
 * what was known that morning; those of two data sets without dates from the half of them that was not judged.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Hazards } from '#lib/forecast/hazards.ts'
import { type Brier, brierOf } from '#lib/judge/brier.ts'
import type { PredictedStay } from '#lib/judge/single-stay.ts'
import { type StayCalibration, stayCalibration } from '#lib/judge/stay-calibration.ts'
import { daysOfStay, type RecordedStay } from '#lib/learn/stay.ts'
import { xoshiro } from '#tests/montecarlo/random.ts'
import golden from '../../golden/real-stays.json' with { type: 'json' }
import { TODAY } from '../forecasting.ts'
import { ended, unseenAfter } from '../learning.ts'
import { learnedHazards, survival } from './forecast.ts'
import { knownOn, LAST_DAY, PEOPLE, type Series, staysOf } from './record.ts'

/** Days that a prediction reaches. */
const REACH = 400
export const BRIER_DAYS = [7, 28, 90] as const

/** One set of stays, judged; `hindsight`: the scores of the one curve that fits these very stays best, told of each. */
export type JudgedStays = {
  readonly name: string
  readonly ended: number
  readonly calibration: StayCalibration
  readonly brier: readonly Brier[]
  readonly hindsight: readonly Brier[]
}

export function judgedStays(): JudgedStays[] {
  return [
    judged('waiting, on acceptance', predictedOnEntry('waiting')),
    judged('operated, on that day', predictedOnEntry('operated')),
    judged('hospital stays, `los.data`', predictedFromHalf('los')),
    judged('a surgical waiting list, `transplant`', predictedFromHalf('transplant')),
  ]
}

function judged(name: string, stays: readonly PredictedStay[]): JudgedStays {
  const best = bestCurve(stays)
  const told = stays.map(stay => ({ ...stay, staying: best }))
  return {
    name,
    ended: stays.filter(({ isEnded }) => isEnded).length,
    calibration: stayCalibration(stays)!,
    brier: BRIER_DAYS.map(day => brierOf(stays, day)),
    hindsight: BRIER_DAYS.map(day => brierOf(told, day)),
  }
}

function predictedOnEntry(series: Series): PredictedStay[] {
  return staysOf(PEOPLE, LAST_DAY + 1)[series].map(stay => {
    const asOf = stay.enteredOn
    const hazards = learnedHazards(series, staysOf(knownOn(asOf), asOf)[series], asOf)
    return predicted(hazards, stay, LAST_DAY + 1)
  })
}

function predictedFromHalf(name: 'los' | 'transplant'): PredictedStay[] {
  const all = golden[name].stays.flatMap(([, last, exit, count]) => {
    const one = exit === null ? unseenAfter(Number(last) + 1) : ended('onward', Number(last))
    return Array.from({ length: Number(count) }, () => one)
  })
  const draw = xoshiro(1)
  const isLearned = all.map(() => draw() < 0.5)
  const hazards = learnedHazards(
    'waiting',
    all.filter((_, i) => isLearned[i]),
    TODAY,
  )
  return all.filter((_, i) => !isLearned[i]).map(stay => predicted(hazards, stay, TODAY))
}

function predicted(hazards: Hazards, stay: RecordedStay, asOf: DayNumber): PredictedStay {
  const { until, exit } = daysOfStay(stay, asOf)
  return { staying: survival(hazards, 0, REACH), until, isEnded: exit !== null }
}

/** Kaplan and Meier's curve of the stays. */
function bestCurve(stays: readonly PredictedStay[]): Float64Array {
  let alive = 1
  return Float64Array.from({ length: REACH }, (_, d) => {
    const watched = stays.filter(({ until }) => until >= d)
    const over = watched.filter(({ until, isEnded }) => isEnded && until === d).length
    if (watched.length > 0) alive *= 1 - over / watched.length
    return alive
  })
}
