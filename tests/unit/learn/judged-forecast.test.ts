/** The short version of `npm run verify:forecast`: one small network, so wider bars; the full one has those of the engine. */
import { expect, it } from 'vitest'
import { HORIZONS, judgeHistory } from '#tests/support/judged-forecast.ts'
import { trueDemand } from '#tests/support/true-demand.ts'
import { cellOf, liveHistory } from '#tests/support/true-history.ts'
import { drawWorld, WORLD } from '#tests/support/true-world.ts'

const SIZE = { centres: 3, groups: 4 }

it('a forecast learned from records alone is nearly as good as that of who knows the truth', () => {
  const histories = [judgeHistory(SIZE, 3)]
  for (const [h, horizon] of HORIZONS.entries()) {
    const all = histories.map(one => one[h]!)
    const sum = (of: (one: (typeof all)[number]) => number) => all.reduce((total, one) => total + of(one), 0)
    const covered = sum(one => one.exact) / all.length
    expect(covered).toBeGreaterThan(0.74)
    expect(covered).toBeLessThan(0.85)
    if (horizon === 90) continue
    expect(sum(one => one.score) / sum(one => one.idealScore)).toBeLessThan(1.1)
    expect(sum(one => one.score)).toBeLessThan(0.9 * sum(one => one.naiveScores['same as today']))
  }
})

it('who knows the truth tells all of it in a house with 223 at once, too', () => {
  const world = drawWorld(WORLD, 252_889_236)
  const history = liveHistory(world, 252_889_236 ^ 0x2545f491)
  expect(Math.max(...history.counts[cellOf(8, 'flight-aviary')]!)).toBeGreaterThan(223)
  for (const byHorizon of trueDemand(world, history, HORIZONS, 2, 1))
    for (const truth of byHorizon) expect(truth.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 6)
})
