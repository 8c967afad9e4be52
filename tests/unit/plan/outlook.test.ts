import { describe, expect, it } from 'vitest'
import { buildDemand, type Claim } from '#lib/forecast/demand.ts'
import { type Forecast, forecast } from '#lib/forecast/forecast.ts'
import type { Pool } from '#lib/forecast/model.ts'
import { newWork } from '#lib/numerics/work.ts'
import { shortageByDay } from '#lib/plan/litter-shortage.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import {
  estimate,
  forecastInput,
  need,
  openForecast,
  POOLS,
  pool,
  resident,
  TODAY,
  TWO_STAGES,
} from '#tests/support/placement.ts'

const DAYS = 2

/** A forecast of one pool whose claimants are there with given chances on every day. */
function forecastOf(made: Pool, claims: readonly Claim[]): Forecast {
  const input = forecastInput([made], [], DAYS)
  return { input, demands: new Map([[made.id, buildDemand(made, DAYS, claims, newWork())]]) }
}

function claim(id: string, p: number, size = 1): Claim {
  const presence = new Float64Array(DAYS).fill(p)
  return { need: need('hospital-cage', size), member: { casualtyId: id, count: 1, presence } }
}

describe('prices', () => {
  const cages = pool('ash', 'hospital-cage', 4, DAYS)
  const made = forecastOf(
    cages,
    [0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3].map((p, i) => claim(`r${i}`, p)),
  )
  const outlook = outlookOf(made)

  it('are what one newcomer adds (engine notes, section 5: 0.436668 at p = 0.6)', () => {
    const [tonight] = outlook.prices(cages.id, need('hospital-cage'), 1)
    expect(0.6 * tonight!).toBeCloseTo(0.436668, 12)
  })

  it('of three that move together give 1.5865176 at p = 0.6 (engine notes, section 5)', () => {
    const all = [1, 2, 3].reduce(
      (sum, nth) => sum + outlook.prices(cages.id, need('hospital-cage'), nth)[0]!,
      0,
    )
    expect(0.6 * all).toBeCloseTo(1.5865176, 12)
  })

  it('of litter-mates with their own chances give 1.770637584 (engine notes, section 5)', () => {
    // Chances .9 .6 .6 that litter-mates are there: P(B >= 1), P(B >= 2), P(B >= 3).
    const atLeast = [1 - 0.1 * 0.4 * 0.4, 0.9 * 0.84 + 0.1 * 0.36, 0.9 * 0.36]
    const litter = atLeast.reduce(
      (sum, p, before) => sum + p * outlook.prices(cages.id, need('hospital-cage'), before + 1)[0]!,
      0,
    )
    expect(litter).toBeCloseTo(1.770637584, 9)
  })

  it('belong to the demand: kept by a forecast that left it as it was, made anew for one that did not', () => {
    const same: Forecast = { ...made, demands: new Map(made.demands) }
    const [first] = outlookOf(made).prices(cages.id, need('hospital-cage'), 1)
    const kept = outlookOf(same).prices(cages.id, need('hospital-cage'), 1)
    expect(kept).toBe(outlookOf(made).prices(cages.id, need('hospital-cage'), 1))
    const emptier = outlookOf(forecastOf(cages, [claim('r0', 0.9)]))
    expect(emptier.prices(cages.id, need('hospital-cage'), 1)[0]).toBeLessThan(first!)
  })

  it('repeat once the newcomers before have filled everything', () => {
    for (const stock of [1, 3]) {
      const wanted = need('hospital-cage', 1, 'ducklings', stock)
      const priceOf = (nth: number) => outlook.prices(cages.id, wanted, nth)[0]!
      const full = [1, 2, 3].map(more => priceOf(4 * stock + more))
      expect([1, 2, 3].map(more => priceOf(4 * stock + 30 + more))).toEqual(full)
      expect(full.reduce((sum, price) => sum + price, 0)).toBeCloseTo(3 / stock, 12)
    }
  })

  it('never fall from one newcomer to the next', () => {
    const prices = [1, 2, 3, 4, 5].map(nth => outlook.prices(cages.id, need('hospital-cage'), nth)[0]!)
    expect(prices).toEqual([...prices].sort((a, b) => a - b))
    expect(Math.max(...prices)).toBeLessThanOrEqual(1)
  })

  it('on a chain of sizes are 0.844084, 0.922214, 0.983882 (engine notes, sections 4 and 5)', () => {
    const capacity = (count: number) => new Int32Array(DAYS).fill(count)
    const chain: Pool = {
      ...cages,
      steps: [1, 2, 1].map((count, at) => ({ size: at + 1, capacityByDay: capacity(count) })),
    }
    const shares = [
      [0.5, 0.2, 0.1],
      [0.6, 0.1, 0.1],
      [0.1, 0.7, 0.1],
      [0, 0.3, 0.6],
      [0.2, 0.5, 0.2],
      [0.4, 0.4, 0],
    ]
    // An animal is in one class at most, so classes are not independent: sum over every outcome instead of claims.
    const price = [0, 0, 0]
    const outcomes = (animal: number, counts: readonly number[], p: number): void => {
      const own = shares[animal]
      if (own === undefined) {
        const certain = counts.flatMap((count, at) =>
          Array.from({ length: count }, (_, i) => claim(`${at}-${i}`, 1, at + 1)),
        )
        const known = outlookOf(forecastOf(chain, certain))
        for (const at of [0, 1, 2])
          price[at]! += p * known.prices(chain.id, need('hospital-cage', at + 1), 1)[0]!
        return
      }
      const gone = 1 - own.reduce((sum, q) => sum + q, 0)
      if (gone > 1e-12) outcomes(animal + 1, counts, p * gone)
      own.forEach((q, at) => {
        if (q > 0) outcomes(animal + 1, counts.with(at, counts[at]! + 1), p * q)
      })
    }
    outcomes(0, [0, 0, 0], 1)
    expect(price.map(value => Math.round(value * 1e6) / 1e6)).toEqual([0.844084, 0.922214, 0.983882])
  })
})

describe('shortage', () => {
  it('of a flock is the same by one convolution as by the price of each', () => {
    const made = openForecast([
      resident('a', 'hospital-cage', 'ash/hospital-cage', 12),
      resident('b', 'hospital-cage', 'ash/hospital-cage', 25),
    ])
    const outlook = outlookOf(made)
    for (const stock of [1, 3]) {
      const wanted = need('hospital-cage', 1, 'ducklings', stock)
      const presence = Float64Array.from({ length: 60 }, (_, day) => 0.97 ** day)
      const prices = Array.from({ length: 10 }, (_, before) =>
        outlook.prices('ash/hospital-cage', wanted, before + 1),
      )
      const byPrice = shortageByDay(10, presence, prices)
      const atOnce = outlook.shortage('ash/hospital-cage', wanted, presence, 10)
      for (const day of byPrice.keys()) expect(atOnce[day]).toBeCloseTo(byPrice[day]!, 10)
    }
  })
})

describe('walk', () => {
  const outlook = outlookOf(openForecast())
  const estimates = TWO_STAGES.map(stage => stage.estimate)

  it('enters the first stage on the day it is told and every later one with the shares before it', () => {
    const tomorrow = outlook.walk(estimates, TODAY + 1)
    expect(tomorrow).toHaveLength(3)
    expect(tomorrow[0]!.entered[1]).toBe(1)
    expect(tomorrow[1]!.reachProbability).toBeCloseTo(0.8, 12)
    expect(tomorrow[2]!.reachProbability).toBeCloseTo(0.64, 12)
    const tonight = outlook.walk(estimates, TODAY)
    expect(tonight[0]!.entered[0]).toBe(1)
    expect(tonight[0]!.present[0]).toBeGreaterThan(tonight[0]!.present[1]!)
  })

  it('spends all its days within the horizon or beyond it', () => {
    const short = outlookOf(forecast(forecastInput(POOLS, [], 10)))
    // Deaths that are over in a week or two: a longer tail passes the year to which a stay is followed.
    const quick = estimates.map(each => ({ ...each, died: { medianDays: 2, p90Days: 6 } }))
    const [brief, whole] = [short.walk(quick, TODAY), outlook.walk(quick, TODAY)]
    const days = (walk: typeof brief, stage: number) =>
      walk[stage]!.present.reduce((sum, p) => sum + p, 0) + walk[stage]!.daysBeyond
    for (const stage of [0, 1]) expect(days(brief, stage)).toBeCloseTo(days(whole, stage), 6)
    expect(brief[1]!.daysBeyond).toBeGreaterThan(1)
  })
})

describe('occupancy', () => {
  it('counts the cleaning after a stay and names each pool once', () => {
    const cages = { ...pool('ash', 'hospital-cage', 2), turnaroundDays: 2 }
    const path = [0, 1].map(() => ({
      estimate: estimate('restricted activity', 5),
      need: need('hospital-cage'),
      poolId: cages.id,
    }))
    const clean = outlookOf(forecast(forecastInput([cages]))).occupancy(path, TODAY)
    const none = outlookOf(forecast(forecastInput([{ ...cages, turnaroundDays: 0 }]))).occupancy(path, TODAY)
    expect(clean.map(each => each.poolId)).toEqual([cages.id])
    expect(clean[0]!.presence[20]).toBeGreaterThan(none[0]!.presence[20]!)
  })

  it('refuses a pool that the forecast does not have', () => {
    const outlook = outlookOf(openForecast())
    const path = [{ estimate: estimate('quarantine', 5), need: need('isolation'), poolId: 'nowhere' }]
    expect(() => outlook.occupancy(path, TODAY)).toThrow('poolId needs')
    expect(() => outlook.prices('nowhere', need('isolation'), 1)).toThrow('poolId needs')
  })
})
