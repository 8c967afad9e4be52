/**
 * The counts of the waiting list as forecast from what was known on a day: stages learned by lib/learn, people in them
 * followed day by day, new ones at the rate of the year before. The plan is a guess in round numbers that counts as two people; it was
 * written down before the first score was seen and never changed for one.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Hazards } from '#lib/forecast/hazards.ts'
import { evidenceOfPlan } from '#lib/learn/evidence.ts'
import { meanHazards } from '#lib/learn/hazards.ts'
import { posteriorOf } from '#lib/learn/posterior.ts'
import type { RecordedStay } from '#lib/learn/stay.ts'
import { trialsOf } from '#lib/learn/trials.ts'
import { addTrial } from '#lib/numerics/poisson-binomial.ts'
import { newWork } from '#lib/numerics/work.ts'
import { estimate, length } from '../forecasting.ts'
import { knownOn, PEOPLE, type Series, staysOf } from './record.ts'

/** Longer than the study. */
const STAGE_DAYS = 2560
const GUESS_WEIGHT = 2
const NEVER = length(1, 2)
const GUESS = {
  waiting: evidenceOfPlan(
    estimate({
      ready: { kind: 'length', length: length(30, 90) },
      shares: { onward: 0.5, died: 0.5, euthanased: 0, left: 0 },
      died: length(30, 90),
      euthanased: NEVER,
    }),
    STAGE_DAYS,
  ),
  operated: evidenceOfPlan(
    estimate({
      ready: { kind: 'length', length: NEVER },
      shares: { onward: 0, died: 1, euthanased: 0, left: 0 },
      died: length(365, 1825),
      euthanased: NEVER,
    }),
    STAGE_DAYS,
  ),
}
/** Acceptances are counted over the last year, on top of one in four weeks. */
const RATE_DAYS = 365
const RATE_PRIOR = { people: 1, days: 28 }

/** The forecast made once the counts of `origin` are known; horizons up to `farthest` days. */
export function forecastWaitingList(
  origin: DayNumber,
  farthest: number,
  everybody = PEOPLE,
): (series: string, horizon: number) => Float64Array {
  const asOf = origin + 1
  const people = knownOn(asOf, everybody)
  const stays = staysOf(people, asOf)
  const learned = (series: Series) => learnedHazards(series, stays[series], asOf)
  const [waiting, operated] = [learned('waiting'), learned('operated')]
  const living = survival(operated, 0, farthest)
  const inCare = (series: Series) =>
    stays[series].flatMap(({ enteredOn, end }) => (end === null ? [asOf - enteredOn] : []))
  const ways: Record<Series, Float64Array[]> = {
    waiting: inCare('waiting').map(age => survival(waiting, age, farthest)),
    operated: [
      ...inCare('operated').map(age => survival(operated, age, farthest)),
      ...inCare('waiting').map(age => operatedLater(waiting, age, living)),
    ],
  }
  const newcomer = { waiting: survival(waiting, 0, farthest), operated: operatedLater(waiting, 0, living) }
  const recent = people.filter(({ accepted }) => accepted > origin - RATE_DAYS).length
  return (series, horizon) => {
    const of = series as Series
    const known = countOf(ways[of].map(way => way[horizon - 1]!))
    const exposure = newcomer[of].slice(0, horizon).reduce((sum, chance) => sum + chance, 0)
    return sumOf(known, newcomers(RATE_PRIOR.people + recent, RATE_PRIOR.days + RATE_DAYS, exposure))
  }
}

/** The chances of a stage day by day, from the guess and from stays as known on a morning. */
export function learnedHazards(series: Series, stays: readonly RecordedStay[], asOf: DayNumber): Hazards {
  return meanHazards(posteriorOf(GUESS[series], GUESS_WEIGHT, trialsOf(stays, asOf, STAGE_DAYS)))
}

/** Chances to be still in a stage at the end of day i from now, for someone who has passed `age` midnights in it. */
export function survival(hazards: Hazards, age: number, days: number): Float64Array {
  let alive = 1
  return Float64Array.from({ length: days }, (_, i) => {
    alive *= 1 - leaving(hazards, age + i).all
    return alive
  })
}

/** Chances of day d of a stage: to leave it, and to go on. */
function leaving(hazards: Hazards, d: number): { all: number; onward: number } {
  const others = hazards.died[d]! + hazards.euthanased[d]! + hazards.left[d]!
  const onward = (1 - others) * hazards.passes[d]!
  return { all: others + onward, onward }
}

/** Chances to be operated by the end of day i from now and living then; `living[k]`: k midnights after the operation's own. */
function operatedLater(waiting: Hazards, age: number, living: Float64Array): Float64Array {
  const chances = new Float64Array(living.length)
  let alive = 1
  for (let on = 0; on < living.length; on++) {
    const { all, onward } = leaving(waiting, age + on)
    for (let i = on; i < living.length; i++) chances[i] = chances[i]! + alive * onward * living[i - on]!
    alive *= 1 - all
  }
  return chances
}

/** How many of people with these chances. */
function countOf(chances: readonly number[]): Float64Array {
  const pmf = new Float64Array(chances.length + 1)
  pmf[0] = 1
  let top = 0
  const work = newWork()
  for (const p of chances) top = addTrial(pmf, 0, top, p, work)
  return pmf.subarray(0, top + 1)
}

/** How many come and are in: Poisson of a rate that is known as `people` in `days` days, so negative binomial. */
function newcomers(people: number, days: number, exposure: number): Float64Array {
  const chance = exposure / (days + exposure)
  const pmf: number[] = [(1 - chance) ** people]
  for (let k = 1; k < 400 && (k < exposure || pmf[k - 1]! > 1e-17); k++)
    pmf.push(((pmf[k - 1]! * (people + k - 1)) / k) * chance)
  return Float64Array.from(pmf)
}

function sumOf(a: Float64Array, b: Float64Array): Float64Array {
  const sum = new Float64Array(a.length + b.length - 1)
  a.forEach((p, i) => {
    b.forEach((q, j) => {
      sum[i + j] = sum[i + j]! + p * q
    })
  })
  return sum
}
