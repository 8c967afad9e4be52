import { describe, expect, it } from 'vitest'
import type { Counts } from '#lib/forecast/company.ts'
import {
  forecast,
  getDemand,
  poolForecast,
  price,
  withItinerary,
  withoutCasualty,
} from '#lib/forecast/forecast.ts'
import { newForecastMemory } from '#lib/forecast/forecast-memory.ts'
import type { Pool } from '#lib/forecast/model.ts'
import { withDoubt } from '#lib/forecast/shared-doubt.ts'
import { shortBracket } from '#lib/forecast/short-bracket.ts'
import { seededRandom } from '#lib/numerics/random.ts'
import { newWork } from '#lib/numerics/work.ts'
import { input, itinerary, length, need, pool, stage, stream } from '#tests/support/forecasting.ts'

const DAYS = 30
const work = newWork()
const doubtful = (plain: Pool, variance: number): Pool => ({
  ...plain,
  steps: plain.steps.map(step => ({ ...step, doubtByDay: new Float64Array(DAYS).fill(variance) })),
})
const AFTER = { stage: 'limited activity', ready: { kind: 'length', length: length(20, 30) } } as const
const pools = (variance: number) => [
  doubtful(pool('cage', [6, 3], DAYS), variance),
  doubtful(pool('flight', [8], DAYS), variance),
]
const itineraries = Array.from({ length: 16 }, (_, i) =>
  itinerary(String(i), [
    stage('cage', {}, { size: i % 2 === 0 ? 1 : 2, stock: i % 3 === 0 ? 3 : 1 }),
    stage('flight', AFTER),
  ]),
)
const arrivals = [stream('s', [stage('cage'), stage('flight', AFTER)], 0.3, DAYS)]
const made = (variance: number) =>
  forecast(input({ horizonDays: DAYS, pools: pools(variance), itineraries, arrivals }))
const moments = (counts: Counts, d: number) => {
  const p = counts.pmf.subarray(d * counts.stride, d * counts.stride + counts.top[d]! + 1)
  const mass = p.reduce((sum, one) => sum + one, 0)
  const mean = p.reduce((sum, one, k) => sum + k * one, 0)
  return { mass, mean, variance: p.reduce((sum, one, k) => sum + one * (k - mean) ** 2, 0) }
}

describe('what a class shares', () => {
  // Twenty animals there at 0.5 each: far enough above none.
  const base: Counts = {
    stride: 3,
    pmf: Float64Array.from([0, 0, 1, 0.5, 0.5, 0]),
    top: Int32Array.from([2, 1]),
  }

  it('keeps the mass and the mean and adds its variance, where nothing would fall below none', () => {
    const counts = getDemand(made(0), 'flight').classes[0]!.wanted
    const wide = withDoubt(counts, new Float64Array(DAYS).fill(2.5), work)
    for (const d of [20, 29]) {
      const [a, b] = [moments(counts, d), moments(wide, d)]
      expect(b.mass).toBeCloseTo(1, 10)
      expect(b.mean - a.mean).toBeGreaterThan(-1e-9)
      expect(b.mean - a.mean).toBeLessThan(0.06)
      expect(b.variance - a.variance).toBeGreaterThan(2.2)
      expect(b.variance - a.variance).toBeLessThan(2.5 + 1e-9)
    }
  })

  it('is nothing where there is none, day by day', () => {
    expect(withDoubt(base, undefined, work)).toBe(base)
    expect(withDoubt(base, new Float64Array(2), work)).toBe(base)
    const second = withDoubt(base, Float64Array.of(0, 0.5), work)
    expect(moments(second, 0)).toEqual({ mass: 1, mean: 2, variance: 0 })
    expect(moments(second, 1).mass).toBeCloseTo(1, 12)
    expect(second.top[1]).toBeGreaterThan(1)
  })

  it('is what draws give: Poisson demand whose level nobody knows', () => {
    // 40,000 years in which a normal level with sd 1.5 moves the mean of 12; the engine's way beside it.
    const random = seededRandom(11)
    const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
    const drawn = new Float64Array(60)
    const many = 40_000
    for (let i = 0; i < many; i++) {
      const mean = Math.max(0, 12 + 1.5 * normal())
      let [k, left] = [0, random()]
      for (const least = Math.exp(-mean); left > least; k++) left *= random()
      drawn[k] = drawn[k]! + 1 / many
    }
    const poisson = new Float64Array(60)
    poisson[0] = Math.exp(-12)
    for (let k = 1; k < 60; k++) poisson[k] = (poisson[k - 1]! * 12) / k
    const wide = withDoubt({ stride: 60, pmf: poisson, top: Int32Array.of(59) }, Float64Array.of(2.25), work)
    for (const c of [8, 12, 15, 18, 21]) {
      const above = (pmf: ArrayLike<number>) =>
        Array.from(pmf).reduce((sum, p, k) => sum + (k > c ? p : 0), 0)
      const chance = above(wide.pmf)
      const error = Math.sqrt((chance * (1 - chance)) / many)
      // A normal against a difference of Poissons: their own distance is 0.003 at most here.
      expect(Math.abs(above(drawn) - chance)).toBeLessThan(4 * error + 0.003)
    }
  })
})

describe('a forecast with doubt', () => {
  const [sure, unsure] = [made(0), made(2)]

  it('is wider, and shortage where there is room to spare is likelier', () => {
    const [a, b] = [sure, made(9)].map(one => poolForecast(getDemand(one, 'flight')))
    expect(b!.thresholds[0]!.p90ByDay[25]).toBeGreaterThan(a!.thresholds[0]!.p90ByDay[25]!)
    expect(b!.thresholds[0]!.p10ByDay[25]).toBeLessThan(a!.thresholds[0]!.p10ByDay[25]!)
    expect(a!.shortByDay[3]).toBeLessThan(0.5)
    expect(b!.shortByDay[3]).toBeGreaterThan(a!.shortByDay[3]!)
  })

  it('is the one without, where its variance is 0', () => {
    const plain = forecast(
      input({
        horizonDays: DAYS,
        pools: [pool('cage', [6, 3], DAYS), pool('flight', [8], DAYS)],
        itineraries,
        arrivals,
      }),
    )
    for (const id of ['cage', 'flight'])
      expect(poolForecast(getDemand(sure, id)).expectedShortByDay).toEqual(
        poolForecast(getDemand(plain, id)).expectedShortByDay,
      )
  })

  it('prices one more animal at what it adds to the shortage, exactly', () => {
    const one = itinerary('new', [stage('cage', {}, { size: 1, stock: 3 }), stage('flight', AFTER)])
    const grown = withItinerary(unsure, one)
    const before = poolForecast(getDemand(unsure, 'flight')).expectedShortByDay
    const after = poolForecast(getDemand(grown, 'flight')).expectedShortByDay
    const prices = price(unsure, 'flight', need({ stock: 1 }))
    const alone = forecast(input({ horizonDays: DAYS, pools: pools(0), itineraries: [one], arrivals: [] }))
    const there = poolForecast(getDemand(alone, 'flight')).thresholds[0]!.meanByDay
    for (let d = 0; d < DAYS; d++) expect(after[d]! - before[d]!).toBeCloseTo(there[d]! * prices[d]!, 9)
  })

  it('gives back what it was when an animal is added and taken out, and equals a rebuild', () => {
    const one = itinerary('new', [stage('cage'), stage('flight', AFTER)])
    const back = withoutCasualty(withItinerary(unsure, one), 'new')
    const rebuilt = forecast(
      input({ horizonDays: DAYS, pools: pools(2), itineraries: [...itineraries, one], arrivals }),
    )
    for (const id of ['cage', 'flight']) {
      const of = (made: typeof unsure) => poolForecast(getDemand(made, id)).expectedShortByDay
      for (let d = 0; d < DAYS; d++) {
        expect(of(back)[d]).toBeCloseTo(of(unsure)[d]!, 10)
        expect(of(withItinerary(unsure, one))[d]).toBeCloseTo(of(rebuilt)[d]!, 10)
      }
    }
  })

  it('is made anew when only the doubt changed', () => {
    const memory = newForecastMemory()
    const first = forecast(input({ horizonDays: DAYS, pools: pools(0), itineraries, arrivals }), work, memory)
    const second = forecast(
      input({ horizonDays: DAYS, pools: pools(2), itineraries, arrivals }),
      work,
      memory,
    )
    const short = (made: typeof unsure) => poolForecast(getDemand(made, 'flight')).expectedShortByDay
    expect(short(first)).toEqual(short(sure))
    expect(short(second)).toEqual(short(unsure))
  })

  it('keeps the lower end of the bracket below the upper', () => {
    const { lowerByDay, upperByDay } = shortBracket(getDemand(unsure, 'cage'))
    for (let d = 0; d < DAYS; d++) expect(lowerByDay[d]).toBeLessThanOrEqual(upperByDay[d]!)
  })
})
