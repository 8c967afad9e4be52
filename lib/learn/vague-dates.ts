/**
 * Ends that nobody dated, learned together with the stage they are of.
 * Promise: each uncertain end is spread in proportion to the chance to reach a day and to end on it so, under what is
 * learned from all; that is repeated until nothing moves. Without weight on the plan this is the self-consistent
 * estimate of interval-censored times (Turnbull 1976, from memory), which maximises their likelihood.
 */

import type { DayNumber } from '#lib/domain/day.ts'
import type { Hazards } from '#lib/forecast/hazards.ts'
import { seededRandom, seedOf } from '#lib/numerics/random.ts'
import { addEvidence, type Evidence, type StageEvidence } from './evidence.ts'
import { meanHazards } from './hazards.ts'
import { posteriorOf } from './posterior.ts'
import { daysOfStay, type RecordedStay } from './stay.ts'
import { alike, exitDays, trialsOf, trialsOfCounted } from './trials.ts'

/** Rounds end when no chance of a day moved by more: what is left to move is far less than any draw differs by. */
const STILL = 1e-7
/** What settles last is how neighbouring days share; the stretch told of 300 animals was then the same to five digits. */
const ROUNDS_MAX = 500

/** Whether a stay's end is known to a few days only. */
export function isVague(stay: RecordedStay, asOf: DayNumber): boolean {
  const { exit, until } = daysOfStay(stay, asOf)
  return exit !== null && exit.earliest < until
}

/**
 * The trials of stays with their uncertain ends spread by the posterior they lead to themselves, under `prior` times
 * `weight`. Without uncertain ends: trialsOf. Throws RangeError as trialsOf and posteriorOf do.
 */
export function consistentTrials(
  stays: readonly RecordedStay[],
  asOf: DayNumber,
  prior: StageEvidence,
  weight: number,
): Evidence {
  const { days } = prior
  const known = trialsOf(
    stays.filter(stay => !isVague(stay, asOf)),
    asOf,
    days,
  )
  const vague = alike(
    stays.filter(stay => isVague(stay, asOf)),
    asOf,
  )
  if (vague.length === 0) return known
  const withVague = (hazards?: Hazards) => {
    const spread = trialsOfCounted(vague, asOf, days, hazards)
    return addEvidence(
      [known, spread].map(of => ({ weight: 1, of })),
      days,
    )
  }
  let trials = withVague()
  let hazards = meanHazards(posteriorOf(prior, weight, trials))
  for (let round = 0; round < ROUNDS_MAX; round++) {
    trials = withVague(hazards)
    const next = meanHazards(posteriorOf(prior, weight, trials))
    if (farthest(hazards, next) < STILL) break
    hazards = next
  }
  return trials
}

function farthest(a: Hazards, b: Hazards): number {
  let most = 0
  for (const field of ['died', 'euthanased', 'left', 'passes'] as const) {
    for (let d = 0; d < a.days; d++) most = Math.max(most, Math.abs(a[field][d]! - b[field][d]!))
  }
  return most
}

/**
 * The stays with each uncertain end put on one day, drawn by its chances under `hazards`. The same `law`, stay and
 * `draw` give the same day, whatever other stays there are.
 */
export function datedStays(
  stays: readonly RecordedStay[],
  asOf: DayNumber,
  hazards: Hazards,
  law: string,
  draw: number,
): RecordedStay[] {
  return stays.map(stay => {
    const { end } = stay
    if (end?.kind !== 'exit' || !isVague(stay, asOf)) return stay
    const days = exitDays(stay, asOf, hazards)
    if (days === null) return stay
    const on = stay.enteredOn + days.first + pick(days.chances, seededRandom(seedOf(law, stay.key, draw))())
    return { ...stay, end: { kind: 'exit', exit: end.exit, on } }
  })
}

/** The index at which the running sum of chances passes u, in [0, 1). */
function pick(chances: readonly number[], u: number): number {
  let below = 0
  for (const [i, chance] of chances.entries()) {
    below += chance
    if (u < below) return i
  }
  return chances.length - 1
}
