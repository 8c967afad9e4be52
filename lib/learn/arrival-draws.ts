/**
 * Draws of how many arrivals a group truly has: the level that its whole year shares, and each season's own.
 * Promise: the mean over draws is what was learned; the same group and draw give the same, whatever other groups there are.
 */

import { firstDayOfNextSeason } from '#lib/domain/stage-cell.ts'
import { logGammaDraw } from '#lib/numerics/gamma.ts'
import { seededRandom, seedOf } from '#lib/numerics/random.ts'
import type { LearnedArrivals } from './arrivals.ts'

const Z_80 = 1.2815515655446004

/** One draw of the arrivals expected by day, over the same days. */
export function drawArrivals(learned: LearnedArrivals, draw: number): Float64Array {
  const { group, level, season, eventsPerDay, from } = learned
  // The range of the level is a lognormal's 10 and 90 % points.
  const sd = Math.log(level.high / level.low) / (2 * Z_80)
  const random = seededRandom(seedOf(group, 'level', draw))
  const normal = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  const year = Math.exp(sd * normal - sd ** 2 / 2)
  const drawn = new Float64Array(eventsPerDay.length)
  for (let d = 0, until = season.until, shape = season.shape; d < drawn.length; ) {
    const own = seededRandom(seedOf(group, 'season', until, draw))
    const factor = Math.exp(logGammaDraw(shape, own)) / shape
    for (; d < drawn.length && from + d < until; d++) drawn[d] = eventsPerDay[d]! * year * factor
    until = firstDayOfNextSeason(until)
    shape = 1 / season.variance
  }
  return drawn
}
