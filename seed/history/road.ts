/** How far the centres are from one another, as the table of the scenario has it. Centres by number, from 1. */
import { CENTRES } from '../scenario/centres.ts'
import { kmApart } from '../scenario/geography.ts'

const ROAD_FACTOR = 1.3
const KM_PER_MINUTE = 50 / 60

/** Whole minutes of driving. */
export function minutesBetween(from: number, to: number): number {
  return Math.round((kmBetween(from, to) * ROAD_FACTOR) / KM_PER_MINUTE)
}

/** Every centre, the one itself first, then the nearer before the farther. */
export function centresByDistance(from: number): number[] {
  return CENTRES.map((_, at) => at + 1).sort((a, b) => kmBetween(from, a) - kmBetween(from, b))
}

function kmBetween(from: number, to: number): number {
  const [a, b] = [CENTRES[from - 1], CENTRES[to - 1]]
  return a === undefined || b === undefined ? 0 : kmApart(a.spot, b.spot)
}
