import { expect, test } from 'vitest'
import { newByExit } from '#lib/domain/housing.ts'
import { poolArrivals } from '#lib/forecast/arrivals.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { newWork } from '#lib/numerics/work.ts'
import { estimate, length, OVERWINTERING, stage, stream, TODAY } from '../../support/forecasting.ts'

const whole = (days: number) => ({ today: TODAY, horizonDays: days, shareOfTodayLeft: 1 })
const arrivalsOf = (from: Parameters<typeof stream>, clock = whole(from[3])) =>
  poolArrivals(stream(...from), clock, 'midnight', () => 0, newWork())

// Eick, Massey, Whitt 1993: rate 20 + 8 sin(2 pi t / 365) and a stay of exactly 30 days give this mean and this lag.
test('a yearly sine of arrivals: mean, height and lag of the peak in closed form', () => {
  const days = 1500
  const turn = (2 * Math.PI) / 365
  // Whole days: the day's rate is the sine's mean over it, the midnight count a stay of 30 whole days.
  const perDay = (d: number) => 20 + (8 * (Math.cos(turn * d) - Math.cos(turn * (d + 1)))) / turn
  const still: StageEstimate = estimate({
    shares: newByExit(exit => (exit === 'onward' ? 1 : 0)),
    ready: { kind: 'length', length: length(30, 30) },
  })
  const made = stream('s', [{ ...stage('p'), estimate: still }], 0, days)
  for (let d = 0; d < days; d++) made.eventsPerDay[d] = perDay(d)
  const [pool] = poolArrivals(made, whole(days), 'midnight', () => 0, newWork())
  const mean = pool!.rates[0]!
  // At the midnight that ends day d the clock says t = d + 1.
  const closed = (t: number) => 600 + (8 * (Math.cos(turn * (t - 30)) - Math.cos(turn * t))) / turn
  expect(closed(30)).toBeCloseTo(660.606040486, 9)
  for (let d = 60; d < days; d++) expect(mean[d]).toBeCloseTo(closed(d + 1), 9)
  let peak = 1000
  for (let d = 1000; d < 1365; d++) if (mean[d]! > mean[peak]!) peak = d
  const rate = (d: number) => (((d + 1) % 365) + 365) % 365
  expect(Math.abs(rate(peak) - 365 / 4 - 15)).toBeLessThan(1)
})

test('singles go through stages as expected numbers: the same as one walk an event', () => {
  const path = [stage('a'), stage('b')]
  const singles = arrivalsOf(['s', path, 0.7, 60])
  // A brood distribution with an impossible second size takes the other way through the code.
  const events = arrivalsOf(['s', path, 0.7, 60, [1, 0]])
  singles.forEach(({ rates }, i) => {
    for (let d = 0; d < 60; d++) expect(rates[0]![d]).toBeCloseTo(events[i]!.rates[0]![d]!, 12)
  })
})

test('a gate by date: one walk for each day of arrival, the same for singles', () => {
  const path = [stage('a'), { ...stage('b'), estimate: OVERWINTERING }]
  const singles = arrivalsOf(['s', path, 0.7, 150])
  const events = arrivalsOf(['s', path, 0.7, 150, [1, 0]])
  for (let d = 0; d < 150; d++) expect(singles[1]!.rates[0]![d]).toBeCloseTo(events[1]!.rates[0]![d]!, 11)
})

test('broods: animals expected are events times brood size times chance, and every event is counted once', () => {
  const pmf = [0.2, 0.5, 0.3]
  const [pool] = arrivalsOf(['s', [stage('a')], 0.4, 50, pmf])
  const [single] = arrivalsOf(['s', [stage('a')], 0.4, 50])
  for (let d = 0; d < 50; d++) {
    const animals = pool!.rates.reduce((sum, rates, j) => sum + (j + 1) * rates[d]!, 0)
    expect(animals).toBeCloseTo(2.1 * single!.rates[0]![d]!, 12)
    expect(neumaierSum(pool!.rates.map(rates => rates[d]!))).toBeLessThanOrEqual(0.4 * (d + 1))
  }
})

test("today's arrivals are those of the part of the day that is left", () => {
  const [half] = arrivalsOf(['s', [stage('a')], 0.4, 20], { ...whole(20), shareOfTodayLeft: 0.25 })
  const [all] = arrivalsOf(['s', [stage('a')], 0.4, 20])
  expect(half!.rates[0]![0]).toBeCloseTo(0.25 * all!.rates[0]![0]!, 15)
})

test('refuses a year that ends before the horizon', () => {
  expect(() =>
    poolArrivals(stream('s', [stage('a')], 1, 10), whole(20), 'midnight', () => 0, newWork()),
  ).toThrow('eventsPerDay needs 20 days, got 10')
})
