/**
 * The plan on a small grid: its times stretched and spread, its odds of an early death moved.
 * Promise: 13 stretches of the length, 3 spreads, 7 log-odds, each cell the law that the plan so changed has by
 * evidenceOfPlan. Kept as what they are made of, 39 tables of times and 7 rows of shares, since the odds only scale
 * masses: a seventh of the time functions and a fortieth of the memory of all laws.
 */
import { EXITS, type Exit, newByExit, UNBARRED } from '#lib/domain/housing.ts'
import type { LengthEstimate, StageEstimate } from '#lib/forecast/model.ts'
import { lengthTails, sharesOf } from '#lib/forecast/stage-law.ts'
import { dayTails, lognormalSigma } from '#lib/numerics/lognormal.ts'
import { type Evidence, noEvidence, type StageEvidence } from './evidence.ts'

/** Logarithms of the stretches, three standard deviations either way. */
export const LOG_STRETCHES: readonly number[] = Array.from({ length: 13 }, (_, i) => (i - 6) * 0.2)
/** Factors on the log of 90th percentile over median. */
export const SPREADS = [0.7, 1, 1.4] as const
/** What is added to the log-odds that the stage ends by death. */
export const EARLY_ODDS: readonly number[] = Array.from({ length: 7 }, (_, i) => (i - 3) * 0.5)
/** Cells of the grid: stretch outermost, then spread, then log-odds. */
export const GRID_CELLS = LOG_STRETCHES.length * SPREADS.length * EARLY_ODDS.length
export const CELLS_A_STRETCH = SPREADS.length * EARLY_ODDS.length

/** The least chance that a cell gives a recorded day: no single record rules out a cell. */
const LEAST_CHANCE = 1e-9

/**
 * `ready[i]`: P(ready after day k), one table a stretch and spread; `died`, `euthanased` likewise, given that ending;
 * `shares`: one row a log-odds. `isByDate`: times to ready are counted from the opening of a date gate.
 */
export type PlanGrid = {
  readonly days: number
  readonly isByDate: boolean
  readonly ready: readonly Float64Array[]
  readonly died: Float64Array
  readonly euthanased: Float64Array
  readonly shares: readonly Readonly<Record<Exit, number>>[]
}

/** The grid of these stretches. Throws RangeError where the plan's shares or lengths are none. */
export function planGrid(estimate: StageEstimate, days: number, logStretches = LOG_STRETCHES): PlanGrid {
  const { ready } = estimate
  return {
    days,
    isByDate: ready.kind === 'date gate',
    ready: logStretches.flatMap(logStretch =>
      SPREADS.map(spread => {
        const changed = stretched(estimate, logStretch, spread, 0).ready
        const { medianDays, p90Days } = changed.kind === 'length' ? changed.length : changed.lag
        // Not among the tables that forecasts keep: thirty-nine lengths nobody asks for again would push those out.
        return dayTails(medianDays, lognormalSigma(medianDays, p90Days), days)
      }),
    ),
    died: lengthTails(estimate.died, days),
    euthanased: lengthTails(estimate.euthanased, days),
    shares: EARLY_ODDS.map(odds => sharesOf(stretched(estimate, 0, 1, odds))),
  }
}

/** First grids, which do not depend on records, by the estimate they were made from. */
const firstGrids = new WeakMap<StageEstimate, PlanGrid>()

/** The grid of the prior's stretches; the same object for the same estimate and days. Do not change it. */
export function firstGrid(estimate: StageEstimate, days: number): PlanGrid {
  const kept = firstGrids.get(estimate)
  if (kept?.days === days) return kept
  const made = planGrid(estimate, days)
  firstGrids.set(estimate, made)
  return made
}

/** The plan's stage with its time to ready times exp(logStretch), its log-spread times `spread`, and death at other odds. */
export function stretched(
  estimate: StageEstimate,
  logStretch: number,
  spread: number,
  odds: number,
): StageEstimate {
  const change = ({ medianDays, p90Days }: LengthEstimate): LengthEstimate => {
    const median = medianDays * Math.exp(logStretch)
    return { medianDays: median, p90Days: median * (p90Days / medianDays) ** spread }
  }
  const { ready, shares } = estimate
  const early = shares.died + shares.euthanased
  const moved = early > 0 && early < 1 ? early / (early + (1 - early) * Math.exp(-odds)) : early
  const factor = { early: early > 0 ? moved / early : 1, late: early < 1 ? (1 - moved) / (1 - early) : 1 }
  return {
    ...estimate,
    ready:
      ready.kind === 'length'
        ? { ...ready, length: change(ready.length) }
        : { ...ready, lag: change(ready.lag) },
    shares: newByExit(
      exit => shares[exit] * (exit === 'died' || exit === 'euthanased' ? factor.early : factor.late),
    ),
  }
}

/** The first days of a grid: what its cells say of them is the same, and `beyond` is of what is not over by then. */
export function firstDaysOf(grid: PlanGrid, days: number): PlanGrid {
  return { ...grid, days, ready: grid.ready.map(tails => tails.subarray(0, days)) }
}

/** The law of a cell as evidence of one animal. */
export function lawAt(grid: PlanGrid, cell: number): StageEvidence {
  const share = grid.shares[cell % EARLY_ODDS.length]!
  return mixed(grid, [{ tails: grid.ready[Math.floor(cell / EARLY_ODDS.length)]!, share }])
}

/** The sum of the cells' laws, each times its weight: masses are mixed, never hazards. */
export function mixtureOf(grid: PlanGrid, weights: Float64Array): StageEvidence {
  const parts = grid.ready.map((tails, table) => {
    const share = newByExit(() => 0)
    for (const [odds, shares] of grid.shares.entries()) {
      const weight = weights[table * EARLY_ODDS.length + odds]!
      for (const exit of EXITS) share[exit] += weight * shares[exit]
    }
    return { tails, share }
  })
  return mixed(grid, parts)
}

/** Times to ready, and how much ends by each exit for those who have them. */
type Part = { readonly tails: Float64Array; readonly share: Readonly<Record<Exit, number>> }

function mixed({ days, isByDate, died, euthanased }: PlanGrid, parts: readonly Part[]): StageEvidence {
  const made = noEvidence(days)
  const all = newByExit(exit => parts.reduce((sum, { share }) => sum + share[exit], 0))
  for (const { tails, share } of parts) {
    const passes = share.onward + share.left
    // Whom the plan has leave by themselves at a date gate are counted as going on, as in evidenceOfPlan.
    addTimes(made.onward, tails, isByDate ? passes : share.onward)
    addTails(made.stayed, tails, passes)
    if (!isByDate) addTimes(made.left, tails, share.left)
  }
  addTimes(made.died, died, all.died)
  addTimes(made.euthanased, euthanased, all.euthanased)
  const unready = isByDate ? made.kept.fill(all.onward + all.left) : made.stayed
  addTails(unready, died, all.died)
  addTails(unready, euthanased, all.euthanased)
  if (isByDate) return { ...made, beyond: newByExit(exit => Number(exit === 'onward')) }
  for (let d = 0; d < days; d++) made.kept[d] = made.onward[d]! + made.stayed[d]!
  const late = days - 1
  const later: Record<Exit, number> = {
    onward: parts.reduce((sum, { tails, share }) => sum + share.onward * tails[late]!, 0),
    left: parts.reduce((sum, { tails, share }) => sum + share.left * tails[late]!, 0),
    died: all.died * died[late]!,
    euthanased: all.euthanased * euthanased[late]!,
  }
  const total = made.stayed[late]!
  return {
    ...made,
    beyond: newByExit(exit => (total > 0 ? later[exit] / total : Number(exit === 'onward'))),
  }
}

/** Adds a share of what ends on each day, by tails. */
function addTimes(into: Float64Array, tails: Float64Array, share: number): void {
  if (share === 0) return
  let before = 1
  for (let d = 0; d < into.length; d++) {
    const after = tails[d]!
    into[d] = into[d]! + share * Math.max(0, before - after)
    before = after
  }
}

/** Adds a share of what has not ended by each day. */
function addTails(into: Float64Array, tails: Float64Array, share: number): void {
  if (share === 0) return
  for (let d = 0; d < into.length; d++) into[d] = into[d]! + share * tails[d]!
}

/** Log-likelihoods of records, all of them, under each cell's law, up to a constant. */
export function gridLikelihood(grid: PlanGrid, records: Evidence): Float64Array {
  const { ready, died, euthanased, shares, isByDate } = grid
  const sums = new Float64Array(ready.length * EARLY_ODDS.length)
  const start = (tails: Float64Array, d: number) => (d === 0 ? 1 : tails[d - 1]!)
  for (let d = 0; d < records.days; d++) {
    const counts = UNBARRED.map(exit => records[exit][d]!)
    const [kept, onward, stayed] = [records.kept[d]!, records.onward[d]!, records.stayed[d]!]
    if (kept === 0 && onward === 0 && stayed === 0 && counts.every(count => count === 0)) continue
    const [diedNow, diedLater] = [Math.max(0, start(died, d) - died[d]!), died[d]!]
    const [euthanasedNow, euthanasedLater] = [
      Math.max(0, start(euthanased, d) - euthanased[d]!),
      euthanased[d]!,
    ]
    for (let cell = 0; cell < sums.length; cell++) {
      const tails = ready[Math.floor(cell / EARLY_ODDS.length)]!
      const share = shares[cell % EARLY_ODDS.length]!
      const readyNow = Math.max(0, start(tails, d) - tails[d]!)
      const early = share.died * diedLater + share.euthanased * euthanasedLater
      const passes = share.onward + share.left
      const goes = (isByDate ? passes : share.onward) * readyNow
      const stays = passes * tails[d]! + (isByDate ? 0 : early)
      const keeps = isByDate ? passes + early : goes + stays
      const ends = [
        share.died * diedNow,
        share.euthanased * euthanasedNow,
        isByDate ? 0 : share.left * readyNow,
      ] as const
      const all = ends[0] + ends[1] + ends[2] + keeps
      let sum = chanceLog(kept, keeps, all) + chanceLog(onward, goes, goes + stays)
      sum += chanceLog(stayed, stays, goes + stays)
      for (let i = 0; i < 3; i++) sum += chanceLog(counts[i]!, ends[i]!, all)
      sums[cell] = sums[cell]! + sum
    }
  }
  return sums
}

function chanceLog(count: number, part: number, whole: number): number {
  return count > 0 ? count * Math.log(Math.max(LEAST_CHANCE, whole > 0 ? part / whole : 0)) : 0
}
