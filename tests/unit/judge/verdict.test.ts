import { expect, test } from 'vitest'
import type { HorizonSummary, RivalSummary } from '#lib/judge/summary.ts'
import { needsDays, rangeOf, signOf, skillAgainst, verdictOf } from '#lib/judge/verdict.ts'

const figure = (value: number, standardError: number | null = 0.1) => ({ value, standardError })
const rival = (name: string, skill: number, doubt: number | null = 0.1): RivalSummary => ({
  name,
  kind: 'judged',
  pairs: 100,
  crps: figure(1),
  coverage: figure(0.8),
  skill: figure(skill, doubt),
})
const row = (...rivals: RivalSummary[]): HorizonSummary => ({
  horizon: 7,
  origins: 100,
  pairs: 100,
  coverage: figure(0.8),
  crps: figure(1),
  pinball: [],
  pit: [],
  rivals,
  beatenBy: [],
})

test('a guess did better only beyond doubt, in whichever form was nearer', () => {
  expect(verdictOf(row(rival('same as today', 0.9), rival('same as today, with spread', -0.3)))).toEqual({
    better: ['same as today'],
    alike: [],
  })
  expect(verdictOf(row(rival('same as today', 0.9), rival('same as today, with spread', -0.15)))).toEqual({
    better: [],
    alike: ['same as today'],
  })
  expect(verdictOf(row(rival('same as today', 0.9), rival('same as today, with spread', 0.3)))).toEqual({
    better: [],
    alike: [],
  })
})

test('without a known doubt nothing is told apart; who could not speak is not named', () => {
  expect(
    verdictOf(
      row(rival('seasonal mean', -5, null), {
        name: 'same week last year',
        kind: 'too short',
        needsDays: 400,
      }),
    ),
  ).toEqual({ better: [], alike: ['seasonal mean'] })
  expect(verdictOf(row(rival('ARIMA', -5)))).toEqual({ better: [], alike: [] })
})

test('signs and ranges by two standard errors', () => {
  expect([figure(0.21), figure(0.2), figure(-0.21), figure(9, null)].map(signOf)).toEqual([1, 0, -1, 0])
  expect(rangeOf(figure(0.8, 0.05))).toEqual({ low: expect.closeTo(0.7, 12), high: expect.closeTo(0.9, 12) })
  expect(rangeOf(figure(0.95, 0.05))).toEqual({ low: expect.closeTo(0.85, 12), high: 1 })
  expect(rangeOf(figure(0.8, null))).toBeNull()
})

test('the skill against a rival, and none where it could not speak', () => {
  const one = row(rival('ARIMA', 0.2), { name: 'seasonal mean', kind: 'too short', needsDays: 400 })
  expect(skillAgainst(one, 'ARIMA')).toEqual(figure(0.2))
  expect(skillAgainst(one, 'seasonal mean')).toBeNull()
  expect(skillAgainst(one, 'nobody')).toBeNull()
})

test('judging takes as many blocks as a standard error needs', () => {
  expect([1, 7, 28, 90].map(horizon => needsDays(horizon, 60))).toEqual([397, 403, 424, 1230])
})
