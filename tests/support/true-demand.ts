/**
 * What will truly be wanted, to one who knows how a network truly is and sees its records: the distribution of every
 * cell's count, over what is left to chance, the levels of this season and the next included.
 * Method: levels and days drawn (this season's from its days so far), the rest summed out: those in care one by one,
 * arrivals as compound Poisson counts by Panjer's recursion (1981). Shares no code with the engine.
 */

import { type Draw, xoshiro } from '#tests/montecarlo/random.ts'
import { meanTail } from '#tests/montecarlo/stage-draw.ts'
import type { StageTruth } from './stage-truth.ts'
import { cellOf, HORIZON_DAYS, type TrueHistory } from './true-history.ts'
import {
  gammaOf,
  HOUSINGS,
  indexAt,
  quarterOf,
  seasonName,
  type TrueGroup,
  type TrueWorld,
} from './true-world.ts'

const Z90 = 1.2815515655446004
/** So many and more are wanted at once in no cell; a truth that reached so far would be refused. */
const TOP = 640
/** Of a truth, at most so much may be lost above. */
const LOST_MAX = 1e-6
const AGES = 400

/** `[cell][h]`: chances of 0, 1, 2 .. at the horizons asked for. Throws RangeError where more are wanted than it can tell. */
export function trueDemand(
  world: TrueWorld,
  history: TrueHistory,
  horizons: readonly number[],
  draws: number,
  seed: number,
): Float64Array[][] {
  const draw = xoshiro(seed)
  const chains = world.groups.map(({ stages }) => stages.map(({ truth }) => lawOf(truth)))
  const inCare = residentsOf(world, history, chains, horizons)
  const entries = chains.map(laws => presences(laws))
  const sums = inCare.map(byHorizon => byHorizon.map(() => new Float64Array(TOP)))
  const levels = world.groups.map((group, g) => levelsOf(group, world.asOf, history.arrivals[g]!, draw))
  const days = world.groups.map(group => daysAhead(group, world.asOf))
  for (let i = 0; i < draws; i++) {
    const rates = world.groups.map((group, g) =>
      ratesOf(days[g]!, group.theta, entries[g]!, horizons, levels[g]!(), draw),
    )
    for (let centre = 0; centre < world.size.centres; centre++)
      for (const housing of HOUSINGS)
        for (let h = 0; h < horizons.length; h++) {
          const events = [0, 0, 0]
          for (const [g, { stages, shares }] of world.groups.entries()) {
            const s = stages.findIndex(stage => stage.housing === housing)
            for (let at = 0; s >= 0 && at < 12; at++)
              events[at % 3]! += shares[Math.floor(at / 3)]![centre]! * rates[g]![s]![h]![at]!
          }
          addPanjer(events, sums[cellOf(centre, housing)]![h]!)
        }
  }
  return inCare.map((byHorizon, cell) =>
    byHorizon.map((there, h) =>
      sumOf(
        there,
        sums[cell]![h]!.map(one => one / draws),
      ),
    ),
  )
}

/** P(K > k) and P(K = k, goes on). */
type Law = { readonly staying: Float64Array; readonly onward: Float64Array }

function lawOf({ early, death, ready }: StageTruth): Law {
  const tails = ([medianDays, sd]: readonly [number, number]) =>
    Float64Array.from({ length: AGES + HORIZON_DAYS }, (_, k) =>
      meanTail({ medianDays, p90Days: medianDays * Math.exp(Z90 * sd) }, k),
    )
  const [dead, fit] = [tails(death), tails(ready)]
  return {
    staying: dead.map((tail, k) => early * tail + (1 - early) * fit[k]!),
    onward: fit.map((tail, k) => (1 - early) * ((k === 0 ? 1 : fit[k - 1]!) - tail)),
  }
}

/** [stage][n]: P(in that stage n midnights on), of one that enters the first on the day before. */
function presences(laws: readonly Law[]): Float64Array[] {
  let enters: Float64Array = new Float64Array(HORIZON_DAYS)
  enters[0] = 1
  return laws.map(({ staying, onward }) => {
    const present = through(enters, staying)
    enters = through(enters, onward)
    return present
  })
}

function through(enters: Float64Array, law: Float64Array): Float64Array {
  return enters.map((_, n) => {
    let sum = 0
    for (let k = 0; k <= n; k++) sum += enters[n - k]! * law[k]!
    return sum
  })
}

function residentsOf(
  world: TrueWorld,
  { residents }: TrueHistory,
  chains: readonly (readonly Law[])[],
  horizons: readonly number[],
): Float64Array[][] {
  const made = Array.from({ length: world.size.centres * HOUSINGS.length }, () =>
    horizons.map(() => Float64Array.from({ length: TOP }, (_, k) => Number(k === 0))),
  )
  const known = new Map<string, Float64Array[]>()
  for (const { group, centre, stage, enteredOn } of residents) {
    const age = Math.min(AGES - 1, world.asOf - enteredOn)
    const key = `${group}|${stage}|${age}`
    const present =
      known.get(key) ?? presences([agedLaw(chains[group]![stage]!, age), ...chains[group]!.slice(stage + 1)])
    known.set(key, present)
    for (const [i, byDay] of present.entries()) {
      const cell = made[cellOf(centre, world.groups[group]!.stages[stage + i]!.housing)]!
      for (const [h, horizon] of horizons.entries()) addOne(cell[h]!, byDay[horizon - 1]!)
    }
  }
  return made
}

/** Of those that have stayed `age` midnights: known not to have ended before. */
function agedLaw({ staying, onward }: Law, age: number): Law {
  const alive = age === 0 ? 1 : staying[age - 1]!
  const from = (all: Float64Array) => all.slice(age, age + HORIZON_DAYS).map(one => one / alive)
  return { staying: from(staying), onward: from(onward) }
}

function addOne(pmf: Float64Array, p: number): void {
  for (let k = TOP - 1; k > 0; k--) pmf[k] = pmf[k]! * (1 - p) + pmf[k - 1]! * p
  pmf[0] = pmf[0]! * (1 - p)
}

/** Draws the levels of the seasons ahead: the running one's by its days so far, on a grid of its logarithm. */
function levelsOf(
  { meanOn, theta, seasonVariance }: TrueGroup,
  asOf: number,
  arrivals: readonly { readonly day: number }[],
  draw: Draw,
): () => (season: string) => number {
  const shape = 1 / seasonVariance
  const nodes = Array.from({ length: 241 }, (_, i) => Math.exp((i - 120) * 0.0175))
  const counts = new Map<number, number>()
  for (const { day } of arrivals) counts.set(day, (counts.get(day) ?? 0) + 1)
  const logs = nodes.map(level => shape * (Math.log(level) - level))
  for (let day = asOf - 1; seasonName(day) === seasonName(asOf); day--) {
    const mean = meanOn(day)
    const n = counts.get(day) ?? 0
    for (const [i, level] of nodes.entries())
      logs[i]! += n * Math.log(level) - (n + theta) * Math.log(theta + mean * level)
  }
  const top = Math.max(...logs)
  const weights = logs.map(log => Math.exp(log - top))
  const total = weights.reduce((a, b) => a + b, 0)
  const here = () => nodes[indexAt(weights, draw() * total)]!
  return () => {
    const levels = new Map([[seasonName(asOf), here()]])
    return season => {
      const level = levels.get(season) ?? gammaOf(shape, draw) / shape
      levels.set(season, level)
      return level
    }
  }
}

type DayAhead = {
  readonly mean: number
  readonly season: string
  readonly quarter: number
  readonly sizes: readonly number[]
}

function daysAhead({ meanOn, sizesOn }: TrueGroup, asOf: number): DayAhead[] {
  return Array.from({ length: HORIZON_DAYS }, (_, e) => {
    const day = asOf + e
    return { mean: meanOn(day), season: seasonName(day), quarter: quarterOf(day), sizes: sizesOn(day) }
  })
}

/** [stage][horizon][3 quarter + j]: expected events of which j + 1 are there, in the whole network, with these levels. */
function ratesOf(
  days: readonly DayAhead[],
  theta: number,
  entries: readonly Float64Array[],
  horizons: readonly number[],
  levelIn: (season: string) => number,
  draw: Draw,
): Float64Array[][] {
  const made = entries.map(() => horizons.map(() => new Float64Array(12)))
  for (const [e, { mean, season, quarter, sizes }] of days.entries()) {
    const rate = (mean * levelIn(season) * gammaOf(theta, draw)) / theta
    for (const [s, present] of entries.entries())
      for (const [h, horizon] of horizons.entries()) {
        if (e >= horizon) continue
        const of = made[s]![h]!
        for (const [j, chance] of thereOf(sizes, present[horizon - 1 - e]!).entries())
          of[3 * quarter + j]! += rate * chance
      }
  }
  return made
}

/** P(1, 2, 3 of an event are there), each with chance p. */
function thereOf([one = 0, two = 0, three = 0]: readonly number[], p: number): number[] {
  const q = 1 - p
  return [p * (one + 2 * two * q + 3 * three * q * q), p * p * (two + 3 * three * q), three * p ** 3]
}

/** Adds the chances of a sum over Poisson numbers of ones, twos and threes. */
function addPanjer(events: readonly number[], into: Float64Array): void {
  let [before3, before2, before1] = [0, 0, Math.exp(-(events[0]! + events[1]! + events[2]!))]
  into[0]! += before1
  for (let k = 1; k < TOP; k++) {
    const p = (events[0]! * before1 + 2 * events[1]! * before2 + 3 * events[2]! * before3) / k
    into[k]! += p
    before3 = before2
    before2 = before1
    before1 = p
    if (p < 1e-14 && k > events[0]! + 2 * events[1]! + 3 * events[2]!) break
  }
}

function sumOf(a: Float64Array, b: Float64Array): Float64Array {
  const sum = new Float64Array(2 * TOP)
  for (let i = 0; i < TOP; i++) if (a[i]! > 1e-15) for (let j = 0; j < TOP; j++) sum[i + j]! += a[i]! * b[j]!
  const total = sum.reduce((all, one) => all + one, 0)
  if (!(total >= 1 - LOST_MAX))
    throw new RangeError(`a truth needs all its chances below ${TOP}, got ${total}`)
  return sum
}
