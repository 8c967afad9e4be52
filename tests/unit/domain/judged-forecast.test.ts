import { expect, test } from 'vitest'
import { judgedOrigin } from '#lib/domain/judged-forecast.ts'
import { judgeOrigin } from '#lib/judge/backtest.ts'
import { FIRST_DAY, knownBacktest } from '../../support/judged-series.ts'

const judged = judgeOrigin(knownBacktest(160), FIRST_DAY + 40)
const stored = () => JSON.parse(JSON.stringify(judged))

test('a judged day comes back from JSON as it was, to the last digit', () => {
  expect(judgedOrigin.parse(stored())).toEqual(judged)
})

test.each([
  ['a score below 0', () => ({ ...stored(), horizons: [{ ...stored().horizons[0], crps: -0.1 }] })],
  [
    'a number that JSON made null',
    () => ({ ...stored(), horizons: [{ ...stored().horizons[0], coverage: null }] }),
  ],
  ['a horizon of no days', () => ({ ...stored(), horizons: [{ ...stored().horizons[0], horizon: 0 }] })],
  ['half a day', () => ({ ...stored(), origin: 20_000.5 })],
  ['what nobody asked for', () => ({ ...stored(), seed: 3 })],
])('refuses %s', (_, broken) => {
  expect(judgedOrigin.safeParse(broken()).success).toBe(false)
})
