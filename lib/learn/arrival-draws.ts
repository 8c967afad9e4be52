/**
 * Draws of how many arrivals a group truly has and where they come: what all days share, each season's own level, how
 * far each day is out, and the shares of centres and plans.
 * Promise: the mean over draws is what was learned; the same group and draw give the same, whatever other groups there are.
 */
import type { CentreShares, PlanMix } from '#lib/domain/learned-arrivals.ts'
import { firstDayOfNextSeason, type Season } from '#lib/domain/stage-cell.ts'
import { logGammaDraw, sharesOfLogs } from '#lib/numerics/gamma.ts'
import { type Random, seededRandom, seedOf } from '#lib/numerics/random.ts'
import type { LearnedArrivals } from './arrivals.ts'

/** One draw of the arrivals expected by day, over the same days. */
export function drawArrivals(learned: LearnedArrivals, draw: number): Float64Array {
  const { group, season, eventsPerDay, spread, theta, from } = learned
  const random = seededRandom(seedOf(group, 'level', draw))
  const normals = Array.from(spread[0] ?? [], () => normalDraw(random))
  const drawn = new Float64Array(eventsPerDay.length)
  for (let d = 0, until = season.until; d < drawn.length; until = firstDayOfNextSeason(until)) {
    const own = seededRandom(seedOf(group, 'season', until, draw))
    // The season that runs is among what the days so far tell.
    const level = until === season.until ? 1 : gammaDraw(1 / season.variance, own)
    for (; d < drawn.length && from + d < until; d++) {
      const day = gammaDraw(theta, seededRandom(seedOf(group, 'day', from + d, draw)))
      drawn[d] = eventsPerDay[d]! * factorOf(spread[d]!, normals) * level * day
    }
  }
  return drawn
}

/** One draw of the shares of centres: in each season a Dirichlet about those learned. */
export function drawShares({ group, shares, sharesWeight }: LearnedArrivals, draw: number): CentreShares {
  return drawnAbout(shares, sharesWeight, season => seedOf(group, 'shares', season, draw))
}

/** One draw of the shares of plans, in the same way. */
export function drawMix({ group, mix, mixWeight }: LearnedArrivals, draw: number): PlanMix {
  return drawnAbout(mix, mixWeight, season => seedOf(group, 'mix', season, draw))
}

/** What has no share is left out; the rest keeps its order. */
function drawnAbout<T extends { readonly share: number }>(
  learned: Readonly<Record<Season, readonly T[]>>,
  weights: Readonly<Record<Season, number>>,
  seedIn: (season: Season) => number,
): Record<Season, T[]> {
  const of = (season: Season) => {
    const random = seededRandom(seedIn(season))
    const parts = learned[season].filter(({ share }) => share > 0)
    const drawn = sharesOfLogs(parts.map(({ share }) => logGammaDraw(share * weights[season], random)))
    return parts.map((part, i) => ({ ...part, share: drawn[i]! }))
  }
  return { winter: of('winter'), spring: of('spring'), summer: of('summer'), autumn: of('autumn') }
}

/** A lognormal with mean 1. */
function factorOf(spread: Float64Array, normals: readonly number[]): number {
  return Math.exp(spread.reduce((sum, one, i) => sum + one * (normals[i]! - one / 2), 0))
}

/** A gamma of this shape with mean 1. */
function gammaDraw(shape: number, random: Random): number {
  return Math.exp(logGammaDraw(shape, random)) / shape
}

function normalDraw(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}
