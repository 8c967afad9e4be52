import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { learnShares, SHARES_WEIGHT } from '#lib/learn/arrival-shares.ts'

const EVEN = Array(12).fill(1 / 12)
const WINTER = Array.from({ length: 12 }, (_, m) => (m === 0 || m === 1 || m === 11 ? 1 / 3 : 0))
const usual = (centreId: number, animalsPerYear: number, monthShares = EVEN) => ({
  centreId,
  animalsPerYear,
  monthShares,
  eventSizes: [1],
})
const came = (date: string, centreId: number | null, times = 1) =>
  Array.from({ length: times }, () => ({ day: dayOfDate(date), centreId, animals: 1, planIds: null }))

describe('shares of centres', () => {
  it('are those that were entered where nothing came, season by season', () => {
    const shares = learnShares([], [usual(1, 30), usual(2, 10, WINTER)])
    expect(shares.summer).toEqual([
      { centreId: 1, share: 1 },
      { centreId: 2, share: 0 },
    ])
    // 30/12 against 10/3 a month.
    expect(shares.winter[0]?.share).toBeCloseTo(2.5 / (2.5 + 10 / 3), 12)
  })

  it('follow a season by its own records and, fainter, by the other seasons', () => {
    const records = came('2024-07-01', 2, 60)
    const shares = learnShares(records, [usual(1, 10), usual(2, 10)])
    const of = SHARES_WEIGHT
    expect(shares.summer[1]?.share).toBeCloseTo((of * 0.5 + 60) / (of + 60), 12)
    const yearly = (of * 0.5 + 60) / (of + 60)
    expect(shares.winter[1]?.share).toBeCloseTo(yearly, 12)
  })

  it('do not hear their own records twice', () => {
    const summer = learnShares(came('2024-07-01', 2, 5), [usual(1, 10), usual(2, 10)]).summer
    expect(summer[1]?.share).toBeCloseTo((SHARES_WEIGHT * 0.5 + 5) / (SHARES_WEIGHT + 5), 12)
  })

  it('know a centre that entered nothing but saw them, and leave out what was sent elsewhere', () => {
    const shares = learnShares([...came('2024-07-01', 9, 3), ...came('2024-07-02', null, 50)], [usual(1, 10)])
    expect(shares.summer.map(({ centreId }) => centreId)).toEqual([1, 9])
    expect(shares.summer[1]?.share).toBeCloseTo(3 / (SHARES_WEIGHT + 3), 12)
  })

  it('sum to 1, and are even where nobody entered anything', () => {
    for (const all of [
      [usual(1, 0), usual(2, 0)],
      [usual(3, 5, WINTER), usual(4, 7)],
    ])
      for (const season of Object.values(learnShares(came('2024-04-01', 3, 2), all)))
        expect(season.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
    expect(learnShares([], [usual(1, 0), usual(2, 0)]).spring[0]?.share).toBe(0.5)
  })
})
