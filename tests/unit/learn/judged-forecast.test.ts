/** The short version of `npm run verify:forecast`: one small network, so wider bars; the full one has those of the engine. */
import { expect, it } from 'vitest'
import { HORIZONS, judgeHistory } from '../../support/judged-forecast.ts'

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
