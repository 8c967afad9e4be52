/**
 * Which centre a group's arrivals come to, by season.
 * Promise: shares that sum to 1 in each season; without records those of what the centres entered. A season leans on the
 * other three, which leave its own records out: telling it the same twice would make it too sure (engine, section 1).
 */

import { dayOfDate } from '#lib/domain/day.ts'
import type { CentreShares } from '#lib/domain/learned-arrivals.ts'
import { shareOfDay } from '#lib/domain/season.ts'
import { SEASONS, type Season, seasonOf } from '#lib/domain/stage-cell.ts'
import type { RecordedArrival, UsualYear } from './arrivals.ts'

/** What stands before a season's own records weighs, in arrivals; so does what was entered before the others'. Ours. */
export const SHARES_WEIGHT = 20

/** The shares of a group. Arrivals that were sent elsewhere count for no centre. */
export function learnShares(records: readonly RecordedArrival[], usual: readonly UsualYear[]): CentreShares {
  const centres = [
    ...new Set([
      ...usual.map(({ centreId }) => centreId),
      ...records.flatMap(({ centreId }) => centreId ?? []),
    ]),
  ].sort((a, b) => a - b)
  const counts = SEASONS.map(season =>
    centres.map(
      id => records.filter(({ day, centreId }) => centreId === id && seasonOf(day) === season).length,
    ),
  )
  const entered = centres.map(id =>
    usual
      .filter(({ centreId }) => centreId === id)
      .reduce((sum, { animalsPerYear }) => sum + animalsPerYear, 0),
  )
  const bySeason = SEASONS.map((season, s) => {
    const others = centres.map((_, c) =>
      counts.reduce((sum, of, other) => (other === s ? sum : sum + of[c]!), 0),
    )
    const yearly = leaning(normal(entered), others)
    // How far a centre is out in the rest of the year, carried over to what it entered for this season.
    const expected = centres.map(
      (id, c) => enteredIn(usual, id, season) * ratio(yearly[c]!, normal(entered)[c]!),
    )
    return leaning(normal(expected.some(one => one > 0) ? expected : yearly), counts[s]!)
  })
  const of = (s: number) => centres.map((centreId, c) => ({ centreId, share: bySeason[s]![c]! }))
  return { winter: of(0), spring: of(1), summer: of(2), autumn: of(3) }
}

/** What the shares of each season rest on, in arrivals: its own, and what stands before them. */
export function sharesWeight(records: readonly RecordedArrival[]): Record<Season, number> {
  const of = (season: Season) =>
    SHARES_WEIGHT +
    records.filter(({ day, centreId }) => centreId !== null && seasonOf(day) === season).length
  return { winter: of('winter'), spring: of('spring'), summer: of('summer'), autumn: of('autumn') }
}

/** The middle day of each season's months stands for it. */
const MIDDLE: Readonly<Record<Season, string>> = {
  winter: '2023-01-15',
  spring: '2023-04-15',
  summer: '2023-07-15',
  autumn: '2023-10-15',
}

function enteredIn(usual: readonly UsualYear[], id: number, season: Season): number {
  return usual
    .filter(({ centreId }) => centreId === id)
    .reduce(
      (sum, { animalsPerYear, monthShares }) =>
        sum + animalsPerYear * shareOfDay(monthShares, dayOfDate(MIDDLE[season])),
      0,
    )
}

function leaning(prior: readonly number[], counts: readonly number[]): number[] {
  const total = counts.reduce((sum, count) => sum + count, SHARES_WEIGHT)
  return counts.map((count, c) => (SHARES_WEIGHT * prior[c]! + count) / total)
}

/** Where nothing was entered each has the same. */
function normal(parts: readonly number[]): number[] {
  const total = parts.reduce((sum, part) => sum + part, 0)
  return parts.map(part => (total > 0 ? part / total : 1 / parts.length))
}

function ratio(learned: number, entered: number): number {
  return entered > 0 ? learned / entered : 0
}
