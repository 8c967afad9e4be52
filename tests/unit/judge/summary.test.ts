import { describe, expect, test } from 'vitest'
import { judgeOrigin, withSpread } from '#lib/judge/backtest.ts'
import { LEVELS, pinballOf } from '#lib/judge/pinball.ts'
import { type RivalSummary, summaryOf } from '#lib/judge/summary.ts'
import { FIRST_DAY, knownBacktest } from '../../support/judged-series.ts'

const DAYS = 900
const summarised = (factor: number) => {
  const backtest = knownBacktest(DAYS, factor)
  const origins = Array.from({ length: 280 }, (_, i) => FIRST_DAY + 50 + 3 * i)
  return { backtest, origins, rows: summaryOf(origins.map(origin => judgeOrigin(backtest, origin))) }
}
const judgedAs = (rivals: readonly RivalSummary[], name: string) => {
  const one = rivals.find(rival => rival.name === name)!
  if (one.kind !== 'judged') throw new Error(`${name} is not judged`)
  return one
}

describe('a forecast that knows how the counts come', () => {
  const { rows, backtest, origins } = summarised(1)

  test('covers 8 in 10 and lies flat', () => {
    for (const { coverage, pit } of rows) {
      expect(Math.abs(coverage.value - 0.8)).toBeLessThan(3 * coverage.standardError!)
      expect(coverage.standardError).toBeLessThan(0.03)
      for (const bar of pit) expect(Math.abs(bar - 0.1)).toBeLessThan(0.04)
      expect(pit.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12)
    }
  })

  test('is beaten by nobody, and beats each naive by more than its doubt', () => {
    for (const { rivals, beatenBy } of rows) {
      expect(beatenBy).toEqual([])
      const { skill } = judgedAs(rivals, withSpread('same as today'))
      expect(skill.value).toBeGreaterThan(3 * skill.standardError!)
    }
  })

  test('tells means by pair', () => {
    const [first] = rows
    const losses = origins.flatMap(origin =>
      ['a', 'b'].map(name =>
        pinballOf(backtest.forecastAt(origin)(name, 1), backtest.truth(name, origin + 1)!, LEVELS[0]),
      ),
    )
    expect(first).toMatchObject({ horizon: 1, origins: 280, pairs: 560 })
    expect(first!.pinball[0]).toBeCloseTo(losses.reduce((a, b) => a + b, 0) / 560, 12)
  })

  test('skill is 1 less the ratio of the two scores', () => {
    for (const { crps, rivals } of rows) {
      const guess = judgedAs(rivals, 'same as today')
      expect(guess.skill.value).toBeCloseTo(1 - crps.value / guess.crps.value, 12)
    }
  })
})

test('a forecast that says twice as many is beaten, and the guess that beats it is named', () => {
  const { rows } = summarised(2)
  for (const { beatenBy, rivals, coverage } of rows) {
    expect(beatenBy).toContain(withSpread('same as today'))
    for (const name of beatenBy) expect(judgedAs(rivals, name).skill.value).toBeLessThan(0)
    expect(coverage.value).toBeLessThan(0.7)
  }
})

test('a rival that could never speak says what history it needs', () => {
  const backtest = knownBacktest(160)
  const [row] = summaryOf([judgeOrigin(backtest, FIRST_DAY + 40)])
  expect(row!.rivals.find(({ name }) => name === 'seasonal mean')).toEqual({
    name: 'seasonal mean',
    kind: 'too short',
    needsDays: 2 * 364 + 14,
  })
})

test('days on which a rival could not speak make its skill no surer', () => {
  const backtest = knownBacktest(DAYS)
  // Nine blocks; this week last year is known in the last two.
  const origins = Array.from({ length: 9 }, (_, i) => FIRST_DAY + 10 + 56 * i)
  const rows = summaryOf(origins.map(origin => judgeOrigin(backtest, origin)))
  const { pairs, skill } = judgedAs(rows[0]!.rivals, 'same week last year')
  expect(pairs).toBe(2 * 2)
  expect(skill.standardError).toBeNull()
})

test('a rival that is always exactly right beats whoever is not, and nobody beats it', () => {
  const rival = { name: 'r', pairs: 1, theirs: 0, coverage: 1, needsDays: 0 }
  const day = { horizon: 1, pairs: 1, coverage: 0.8, pinball: [0, 0, 0, 0, 0], pit: new Array(10).fill(0.1) }
  const of = (crps: number) =>
    summaryOf([{ origin: 5, horizons: [{ ...day, crps, rivals: [{ ...rival, ours: crps }] }] }])[0]!
  expect(of(0.4).beatenBy).toEqual(['r'])
  expect(of(0).beatenBy).toEqual([])
})

test('nothing judged is no row', () => {
  expect(summaryOf([])).toEqual([])
  expect(summaryOf([judgeOrigin(knownBacktest(160), FIRST_DAY + 140)]).map(({ horizon }) => horizon)).toEqual(
    [1, 7],
  )
})
