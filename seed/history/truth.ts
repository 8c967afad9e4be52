/**
 * How the invented coast really is, where that differs from its care plans and from what its centres entered:
 * so that there is something to learn. All of it is ours and invented.
 */
import type { CareStage } from '#lib/domain/housing.ts'

/** How many times as long as its plan a condition takes to be ready. */
const LENGTH_TIMES: Readonly<Record<string, number>> = {
  'leg-fracture': 1.1,
  'wing-fracture': 1.4,
  'humerus-fracture': 1.4,
  'coracoid-fracture': 0.9,
  'head-trauma': 0.75,
  'cat-attack': 1.25,
  'underweight-autumn': 1.3,
  'orphan-young': 1.15,
  'road-traffic': 1.2,
  emaciation: 0.8,
  oiled: 1.35,
}

/** What the odds of going on are multiplied with. */
const ONWARD_ODDS_TIMES: Readonly<Record<string, number>> = {
  'cat-attack': 1.2,
  'head-trauma': 1.3,
  'road-traffic': 0.8,
  'orphan-young': 1.1,
  parasites: 0.75,
  'any-reason': 1.1,
}

/** How many times as many animals come as the centres entered. */
const ARRIVALS_TIMES: Readonly<Record<string, number>> = {
  'gulls-large': 1.2,
  hedgehogs: 1.1,
  'small-songbirds': 0.9,
  'pigeons-doves': 1.1,
  owls: 1.15,
}

export function lengthTimes(condition: string, stage: CareStage): number {
  return stage === 'critical care' ? 1 : (LENGTH_TIMES[condition] ?? 1)
}

export function onwardOddsTimes(condition: string): number {
  return ONWARD_ODDS_TIMES[condition] ?? 1
}

export function arrivalsTimes(group: string): number {
  return ARRIVALS_TIMES[group] ?? 1
}
