import { describe, expect, test } from 'vitest'
import { type Backtest, judgeOrigin, mergeJudged, openOrigins } from '#lib/judge/backtest.ts'
import { crpsOf } from '#lib/judge/crps.ts'
import { summaryOf } from '#lib/judge/summary.ts'
import { FIRST_DAY, knownBacktest } from '../../support/judged-series.ts'

const backtest = knownBacktest(160)
const origins = Array.from({ length: 24 }, (_, i) => FIRST_DAY + 10 + 5 * i)
const atOneGo = origins.map(origin => judgeOrigin(backtest, origin))
const stored = <T>(value: T): T => JSON.parse(JSON.stringify(value))

test('one origin: sums over series of what each score says', () => {
  const origin = FIRST_DAY + 40
  const forecast = backtest.forecastAt(origin)
  const { horizons } = judgeOrigin(backtest, origin)
  expect(horizons.map(({ horizon }) => horizon)).toEqual([1, 7, 28])
  for (const { horizon, pairs, crps, pit, rivals } of horizons) {
    const scores = ['a', 'b'].map(name =>
      crpsOf(forecast(name, horizon), backtest.truth(name, origin + horizon)!),
    )
    expect(pairs).toBe(2)
    expect(crps).toBe(scores[0]! + scores[1]!)
    expect(pit.reduce((a, b) => a + b, 0)).toBeCloseTo(2, 12)
    const guess = rivals.find(({ name }) => name === 'same as today')!
    const missed = ['a', 'b'].map(name =>
      Math.abs(backtest.truth(name, origin)! - backtest.truth(name, origin + horizon)!),
    )
    expect(guess).toMatchObject({ pairs: 2, ours: crps, theirs: missed[0]! + missed[1]!, needsDays: 0 })
  }
})

test('a rival without enough history is left out and says what it needs', () => {
  const { horizons } = judgeOrigin(backtest, FIRST_DAY + 40)
  expect(horizons[2]!.rivals.find(({ name }) => name === 'same week last year')).toEqual({
    name: 'same week last year',
    pairs: 0,
    ours: 0,
    theirs: 0,
    coverage: 0,
    needsDays: 364 + 3 - 28 + 1,
  })
})

test('days whose truth is not known yet are left out', () => {
  const { horizons } = judgeOrigin(backtest, FIRST_DAY + 140)
  expect(horizons.map(({ pairs }) => pairs)).toEqual([2, 2, 0])
})

test('a forecast is asked once an origin, and never told a later day', () => {
  const asked: number[] = []
  const looking: Backtest = {
    ...backtest,
    forecastAt: origin => {
      asked.push(origin)
      return backtest.forecastAt(origin)
    },
    rivals: [
      {
        name: 'watched',
        forecast: (_, origin) => {
          expect(origin).toBe(FIRST_DAY + 40)
          return { kind: 'too short', hasDays: 0, needsDays: 1 }
        },
      },
    ],
  }
  judgeOrigin(looking, FIRST_DAY + 40)
  expect(asked).toEqual([FIRST_DAY + 40])
})

describe('stopped and gone on', () => {
  test.each([0, 1, 11, 24])('after %i origins it is what one go gives, to the last digit', stop => {
    const before = stored(origins.slice(0, stop).map(origin => judgeOrigin(backtest, origin)))
    const rest = openOrigins(origins, before)
    expect(rest).toEqual(origins.slice(stop))
    const after = stored(rest.map(origin => judgeOrigin(backtest, origin)))
    expect(mergeJudged(before, after)).toEqual(atOneGo)
    expect(summaryOf(mergeJudged(after, before))).toEqual(summaryOf(atOneGo))
  })

  test('two workers who shared the days, and both did some', () => {
    const odd = stored(atOneGo.filter((_, i) => i % 2 === 1))
    const most = stored(atOneGo.filter((_, i) => i % 3 !== 1 || i % 2 === 0))
    expect(mergeJudged(odd, most)).toEqual(atOneGo)
  })

  test('unlike scores of one origin are refused', () => {
    const other = origins.map(origin => judgeOrigin(knownBacktest(160, 1.1), origin))
    expect(() => mergeJudged(atOneGo, other)).toThrow(
      `runs need the same scores of origin ${FIRST_DAY + 10}, got two`,
    )
  })
})
