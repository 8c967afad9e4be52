import { describe, expect, test } from 'vitest'
import {
  dayCountDemand,
  type Forecast,
  forecast,
  getDemand,
  listClaimants,
  poolForecast,
  price,
  withItinerary,
  withoutCasualty,
} from '#lib/forecast/forecast.ts'
import { sliceOf } from '#lib/forecast/pool-forecast.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { newWork } from '#lib/numerics/work.ts'
import { referenceNetwork } from '../../bench/reference-network.ts'
import { simulate } from '../../montecarlo/replicate.ts'
import { agreement } from '../../support/agreement.ts'
import { input, itinerary, need, pool, stage, stream, TODAY } from '../../support/forecasting.ts'

const network = referenceNetwork({ centres: 6, inCare: 150, arrivalsPerDay: 8, days: 60 }, 1)
const work = newWork()
const made = forecast(network, work)

test('all mass of every class on every day is there within 1e-11, and nothing renormalises it', () => {
  for (const { classes, days } of made.demands.values()) {
    for (const { wanted } of classes) {
      for (let d = 0; d < days; d++) {
        const { pmf, at, top } = sliceOf(wanted, d)
        expect(Math.abs(neumaierSum(pmf.subarray(at, at + top + 1)) - 1)).toBeLessThan(1e-11)
      }
    }
  }
})

describe('agrees with a simulation that shares no code with it', () => {
  // 4,000 futures: some 4,000 cells, strongly alike over counts and days, count for about 200; two standard errors
  // of their mean square are 0.2. `npm run verify:montecarlo` looks ten times closer.
  test.each([1, 2])('network %i: mean square of the standardised differences', seed => {
    const world = referenceNetwork({ centres: 6, inCare: 150, arrivalsPerDay: 8, days: 60 }, seed)
    const { wanted, short } = agreement(forecast(world), simulate(world, 4000, seed * 7 + 1, false, 64), 4)
    expect(wanted.cells).toBeGreaterThan(3000)
    expect(wanted.meanSquare).toBeGreaterThan(0.8)
    expect(wanted.meanSquare).toBeLessThan(1.2)
    expect(wanted.worst).toBeLessThan(5)
    expect(short.worst).toBeLessThan(4.5)
  })

  test('and would not if a place were counted where an enclosure binds', () => {
    const loose = {
      ...network,
      itineraries: network.itineraries.map(each => ({
        ...each,
        stages: each.stages.map(one => ({ ...one, need: { ...one.need, stock: 1 } })),
      })),
    }
    const { wanted } = agreement(forecast(loose), simulate(network, 1000, 5, true, 64), 4)
    expect(wanted.meanSquare).toBeGreaterThan(2)
  })
})

function largestDifference(a: Forecast, b: Forecast): number {
  let largest = 0
  for (const [id, demand] of a.demands) {
    const [mine, theirs] = [poolForecast(demand), poolForecast(getDemand(b, id))]
    for (let d = 0; d < demand.days; d++) {
      largest = Math.max(
        largest,
        Math.abs(mine.shortByDay[d]! - theirs.shortByDay[d]!),
        Math.abs(mine.expectedShortByDay[d]! - theirs.expectedShortByDay[d]!),
      )
    }
    for (const [u, { wanted }] of demand.classes.entries()) {
      const other = getDemand(b, id).classes[u]!.wanted
      for (let d = 0; d < demand.days; d++) {
        const [x, y] = [sliceOf(wanted, d), sliceOf(other, d)]
        for (let k = 0; k <= Math.max(x.top, y.top); k++) {
          const here = k <= x.top ? x.pmf[x.at + k]! : 0
          const there = k <= y.top ? y.pmf[y.at + k]! : 0
          largest = Math.max(largest, Math.abs(here - there))
        }
      }
    }
  }
  return largest
}

test('taking out or adding any casualty equals a rebuild within 1e-10, at a twentieth of the multiply-adds at most', () => {
  for (const one of network.itineraries.filter((_, i) => i % 10 === 0)) {
    const update = newWork()
    const without = withoutCasualty(made, one.casualtyId, update)
    const others = network.itineraries.filter(other => other !== one)
    const rebuilt = forecast({ ...network, itineraries: others })
    expect(largestDifference(without, rebuilt)).toBeLessThan(1e-10)
    const back = withItinerary(rebuilt, one, update)
    expect(largestDifference(back, made)).toBeLessThan(1e-10)
    expect(update.multiplyAdds).toBeGreaterThan(0)
    expect(update.multiplyAdds).toBeLessThan(work.multiplyAdds / 20)
  }
})

test('pools that a change does not touch keep their identity, so their pictures are not made again', () => {
  const [one] = network.itineraries
  const touched = new Set(one!.stages.map(({ poolId }) => poolId))
  const without = withoutCasualty(made, one!.casualtyId)
  for (const [id, demand] of made.demands) {
    if (!touched.has(id)) expect(without.demands.get(id)).toBe(demand)
  }
  expect(poolForecast(getDemand(made, '0 isolation'))).toBe(poolForecast(getDemand(made, '0 isolation')))
})

test('the same input gives the same numbers', () => {
  expect(largestDifference(forecast(network), made)).toBe(0)
})

const DAYS = 20
const PATH = [stage('ward'), stage('aviary')]
const small = forecast(
  input({
    horizonDays: DAYS,
    pools: [pool('ward', [2], DAYS, { housing: 'intensive-care' }), pool('aviary', [2], DAYS)],
    itineraries: [itinerary('a', PATH), itinerary('b', PATH, { enteredStageOn: TODAY - 1 })],
    arrivals: [stream('s', PATH, 0.5, DAYS)],
  }),
)

test('the second count of critical housing sees those who come and go within a day', () => {
  const day = poolForecast(dayCountDemand(small, 'ward')).thresholds[0]!
  const night = poolForecast(getDemand(small, 'ward')).thresholds[0]!
  // In last night, and half an arrival a day.
  expect(day.meanByDay[0]).toBeCloseTo(2.5, 12)
  for (let d = 1; d < DAYS; d++) expect(day.meanByDay[d]).toBeCloseTo(night.meanByDay[d - 1]! + 0.5, 11)
})

test('an animal is not priced against itself', () => {
  const apart = price(small, 'ward', need(), 'a')
  const rebuilt = forecast({ ...small.input, itineraries: small.input.itineraries.slice(1) })
  const expected = price(rebuilt, 'ward', need())
  for (let d = 0; d < DAYS; d++) expect(apart[d]).toBeCloseTo(expected[d]!, 12)
  expect(apart[0]).toBeLessThan(price(small, 'ward', need())[0]!)
})

test('who claims a pool: the likeliest first', () => {
  const claimants = listClaimants(getDemand(small, 'ward'), 4)
  expect(claimants.map(({ casualtyId }) => casualtyId)).toEqual(
    ['b', 'a'].toSorted((x, y) => {
      const chance = (id: string) => claimants.find(({ casualtyId }) => casualtyId === id)!.probability
      return chance(y) - chance(x)
    }),
  )
  expect(listClaimants(getDemand(small, 'aviary'), 0).every(({ probability }) => probability < 0.2)).toBe(
    true,
  )
})

test('refuses what cannot be forecast', () => {
  expect(() => getDemand(small, 'barn')).toThrow('poolId needs a pool of the forecast, got barn')
  expect(() => dayCountDemand(small, 'barn')).toThrow('poolId needs a pool of the forecast, got barn')
  expect(() => withItinerary(small, itinerary('a', PATH))).toThrow(
    'casualtyId needs to be new to the forecast, got a',
  )
  expect(() => forecast({ ...small.input, pools: [] })).toThrow(
    'poolId needs a pool of the forecast, got ward',
  )
  const falling = pool('ward', [1, 1], DAYS)
  const turned = { ...falling, steps: falling.steps.toReversed() }
  expect(() => forecast(input({ pools: [turned], horizonDays: DAYS }))).toThrow(
    'steps need ascending sizes, got 2 after 3',
  )
  expect(() => forecast(input({ pools: [pool('ward', [1], 5)], horizonDays: DAYS }))).toThrow(
    'capacityByDay needs 20 days, got 5 in ward',
  )
  expect(() => forecast(input({ pools: [pool('ward', [], DAYS)], horizonDays: DAYS }))).toThrow(
    'pool needs at least one step, got none in ward',
  )
})
