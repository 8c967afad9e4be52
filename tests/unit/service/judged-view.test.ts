import { describe, expect, it } from 'vitest'
import { judgeOrigin } from '#lib/judge/backtest.ts'
import { judgedFigures } from '#lib/service/judged-view.ts'
import { FIRST_DAY, knownBacktest } from '#tests/support/judged-series.ts'

const DAYS = 900
const origins = Array.from({ length: 50 }, (_, i) => FIRST_DAY + 180 + 14 * i)
const figuresOf = (factor: number, horizons: readonly number[] = [1, 7, 28, 90], days = origins) =>
  judgedFigures(days.map(origin => judgeOrigin({ ...knownBacktest(DAYS, factor), horizons }, origin)))

describe('the figures of a judging', () => {
  it('tell 28 days first, else the longest below, else the shortest there is', () => {
    expect(figuresOf(1).first?.horizon).toBe(28)
    expect(figuresOf(1, [1, 7]).first?.horizon).toBe(7)
    expect(figuresOf(1, [90]).first?.horizon).toBe(90)
    expect(judgedFigures([])).toEqual({
      horizons: [],
      first: undefined,
      judgedDays: 0,
      span: null,
      stays: null,
    })
  })

  it('say from when to when, whatever the order in which days were judged', () => {
    const { judgedDays, span } = figuresOf(1, [1], [origins[3]!, origins[0]!, origins[7]!])
    expect(judgedDays).toBe(3)
    expect(span).toEqual({ from: origins[0], until: origins[7] })
  })

  it('tell of single stays how many, how many ended, and how far off', () => {
    const still = [0.2, 0.01, 0]
    const stays = [
      { until: 3, isEnded: true, outlasts: [0.6, 0.4] as const, still },
      { until: 10, isEnded: false, outlasts: [0.15, 0.1] as const, still },
    ]
    const told = judgedFigures([{ origin: FIRST_DAY, horizons: [], stays }]).stays
    expect(told).toMatchObject({ stays: 2, ended: 1 })
    // The one that ended fills the fifth and sixth tenth by halves, the other the tenth of the longest stays.
    expect(told?.tenths).toEqual({ least: 0, most: expect.closeTo(0.5, 12) })
    // One was gone by day 7 (foretold 0.2 to stay), one was not: the mean of 0.04 and 0.64.
    expect(told?.scores[0]).toEqual({ days: 7, score: expect.closeTo(0.34, 12) })
  })

  it('name a guess that would have done better, with the range of how much', () => {
    const { first } = figuresOf(2)
    expect(first?.better).toContain('same as today')
    const today = first?.guesses.find(({ guess }) => guess === 'same as today')
    if (today?.kind !== 'judged' || today.range === null) throw new Error('not judged')
    expect(today.range.high).toBeLessThan(0)
    expect(today.nearer).toBeCloseTo((today.range.low + today.range.high) / 2, 12)
  })

  it('have a range for a right forecast that holds 8 in 10', () => {
    const { first } = figuresOf(1)
    expect(first?.heldRange?.low).toBeLessThan(0.8)
    expect(first?.heldRange?.high).toBeGreaterThan(0.8)
    expect(first?.pit.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12)
  })

  it('have no range where too few days are judged, and say what a guess needs that could never be made', () => {
    const { first } = figuresOf(1, [28], origins.slice(0, 4))
    expect(first?.heldRange).toBeNull()
    expect(first?.guesses.map(({ kind }) => kind)).toEqual(['judged', 'too short', 'too short'])
    // Two years less four weeks and the half of a season: what the mean of two seasons takes at this distance.
    expect(first?.guesses[2]).toMatchObject({ needsDays: 2 * 364 + 14 - 28 + 1 })
  })
})
