/** The reference plans as estimates, and what becomes of an animal that starts on one: through the engine itself. */
import type { CareStage, Exit } from '#lib/domain/housing.ts'
import type { LengthEstimate, Readiness, StageEstimate } from '#lib/forecast/model.ts'
import { goneByDay, occupancyOf } from '#lib/forecast/occupancy.ts'
import { itinerary, need, TODAY } from './forecasting.ts'
import { referenceRows } from './reference.ts'

type Row = Readonly<Record<string, string>>

const rows = referenceRows('plans')
const gates = referenceRows('gates')

/** The stages of a reference plan, in order. */
export function planEstimates(planId: string): StageEstimate[] {
  const own = rows.filter(row => row['plan_id'] === planId)
  if (own.length === 0) throw new RangeError(`planId needs a plan of the reference, got ${planId}`)
  return own.map(row => ({
    stage: row['stage'] as CareStage,
    ready: readinessOf(row),
    shares: {
      onward: Number(row['goes_on']),
      died: Number(row['died']),
      euthanased: Number(row['euthanased']),
      left: Number(row['left']),
    },
    died: lengthOf(row, 'died_median_days', 'died_p90_days'),
    euthanased: lengthOf(row, 'euthanased_median_days', 'euthanased_p90_days'),
    leastDays: leastDays(row),
  }))
}

/** Nobody goes on before the first day of a check that the next stage or the release requires. */
function leastDays({ plan_id, stage }: Row): number {
  return gates
    .filter(gate => gate['plan_id'] === plan_id && gate['stage'] === stage && gate['required_for'] !== '')
    .filter(gate => gate['anchor'] !== 'admission')
    .reduce((most, gate) => Math.max(most, Number(gate['offset_days'])), 0)
}

function lengthOf(row: Row, median: string, p90: string): LengthEstimate {
  return { medianDays: Number(row[median]), p90Days: Number(row[p90]) }
}

function readinessOf(row: Row): Readiness {
  if (row['gate_opens'] === '') {
    return { kind: 'length', length: lengthOf(row, 'ready_median_days', 'ready_p90_days') }
  }
  return {
    kind: 'date gate',
    opens: row['gate_opens']!,
    closes: row['gate_closes'] === '' ? null : row['gate_closes']!,
    minDays: Number(row['gate_min_days']),
    lag: lengthOf(row, 'gate_lag_median_days', 'gate_lag_p90_days'),
  }
}

/** What becomes of animals: cumulated probabilities by K, midnights since the chain began. */
export type Chain = Readonly<Record<Exit, Float64Array>>

/** The reference's own figures follow an animal for 420 days. */
const DAYS = 420

/** A chain begun today in stage `from` (1 the first) of a plan. */
export function chainOf(planId: string, from = 1): Chain {
  const stages = planEstimates(planId)
    .slice(from - 1)
    .map(each => ({ estimate: each, need: need(), poolId: null }))
  const way = occupancyOf(itinerary('a', stages, { enteredStageOn: TODAY }), {
    today: TODAY,
    horizonDays: DAYS,
    shareOfTodayLeft: 1,
  })
  const gone = (exit: Exit) => goneByDay(way, exit)
  return { onward: gone('onward'), died: gone('died'), euthanased: gone('euthanased'), left: gone('left') }
}

/** A mixture of chains, as published totals hold animals of every severity. */
export function mixed(parts: readonly (readonly [number, Chain])[]): Chain {
  const total = parts.reduce((sum, [weight]) => sum + weight, 0)
  const of = (exit: Exit) => {
    const sum = new Float64Array(DAYS)
    for (const [weight, chain] of parts)
      for (let d = 0; d < DAYS; d++) sum[d] = sum[d]! + (weight / total) * chain[exit][d]!
    return sum
  }
  return { onward: of('onward'), died: of('died'), euthanased: of('euthanased'), left: of('left') }
}

/** Everyone who ever ends so. */
export function ever(chain: Chain, ...exits: Exit[]): number {
  return exits.reduce((sum, exit) => sum + chain[exit][DAYS - 1]!, 0)
}

/** Everyone who ended so with K <= day. */
export function by(day: number, chain: Chain, ...exits: Exit[]): number {
  return exits.reduce((sum, exit) => sum + chain[exit][day]!, 0)
}

/**
 * The day by which this part of those who end so have, in continuous time: half a day after the middle of a
 * midnight count, between days by straight line. As the reference's own figures were made.
 */
export function dayOf(part: number, chain: Chain, ...exits: Exit[]): number {
  const level = part * ever(chain, ...exits)
  for (let d = 0; d < DAYS; d++) {
    const here = by(d, chain, ...exits)
    const before = d === 0 ? 0 : by(d - 1, chain, ...exits)
    if (here >= level) return d - 0.5 + (level - before) / (here - before)
  }
  return Number.POSITIVE_INFINITY
}

/** Kaplan-Meier survival after K = day: those who leave alive are censored, as the published curves have it. */
export function survival(day: number, chain: Chain): number {
  let alive = 1
  for (let d = 0; d <= day; d++) {
    const gone = d === 0 ? 0 : by(d - 1, chain, 'onward', 'died', 'euthanased', 'left')
    const dead = by(d, chain, 'died', 'euthanased') - (d === 0 ? 0 : by(d - 1, chain, 'died', 'euthanased'))
    alive *= 1 - dead / (1 - gone)
  }
  return alive
}

/** The mean K of those who end so. */
export function meanDays(chain: Chain, ...exits: Exit[]): number {
  const all = ever(chain, ...exits)
  let sum = 0
  for (let d = 0; d < DAYS; d++) sum += 1 - by(d, chain, ...exits) / all
  return sum
}
