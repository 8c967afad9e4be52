import { expect, it } from 'vitest'
import { forecast } from '#lib/forecast/forecast.ts'
import { newSharedVariance } from '#lib/learn/shared-variance.ts'
import { input, itinerary, pool, stage, stream, TODAY } from '#tests/support/forecasting.ts'

const DAYS = 12
const pools = [pool('cage', [3, 2], DAYS), pool('flight', [2], DAYS)]
const drawn = (rate: number) =>
  forecast(
    input({
      horizonDays: DAYS,
      pools,
      itineraries: [itinerary('a', [stage('cage'), stage('flight')])],
      arrivals: [stream('s', [stage('cage'), stage('flight')], rate, DAYS)],
    }),
  )

it('is the variance of what was wanted in each draw', () => {
  const rates = [0.2, 0.5, 0.9]
  const shared = newSharedVariance()
  for (const rate of rates) shared.add(drawn(rate))
  const doubts = shared.doubts()
  expect(doubts.map(({ poolId, size }) => `${poolId} ${size}`)).toEqual(
    pools.flatMap(({ id, steps }) => steps.map(({ size }) => `${id} ${size}`)),
  )
  // Arrivals are Poisson: what is wanted grows in proportion to their rate, so variances do by its square.
  const of = (rate: number) => {
    const other = newSharedVariance()
    other.add(drawn(0))
    other.add(drawn(rate))
    return other.doubts()
  }
  const ratio = (0.7 * 2) ** 2
  for (const [i, { varianceByDay, from }] of doubts.entries()) {
    expect(from).toBe(TODAY)
    const [one, twice] = [of(0.5)[i]!.varianceByDay, of(0.7)[i]!.varianceByDay]
    for (let d = 1; d < DAYS; d++) {
      if (one[d]! < 1e-9) continue
      expect(twice[d]! / one[d]!).toBeCloseTo(ratio, 6)
      // Rates .2 .5 .9: variance 0.123333; of 0 and 0.5: 0.125.
      expect(varianceByDay[d]! / one[d]!).toBeCloseTo(0.37 / 3 / 0.125, 6)
    }
  }
})

it('is none where draws agree, and needs two of them', () => {
  const shared = newSharedVariance()
  expect(() => shared.doubts()).toThrow(RangeError)
  for (let i = 0; i < 3; i++) shared.add(drawn(0.4))
  for (const { varianceByDay } of shared.doubts())
    for (const variance of varianceByDay) expect(variance).toBeCloseTo(0, 12)
})
