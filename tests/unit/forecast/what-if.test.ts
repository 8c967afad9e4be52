import { describe, expect, it } from 'vitest'
import { forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import { shortInAll } from '#lib/forecast/tight-days.ts'
import { shortageChange, withOneMore, withPool, withWay } from '#lib/forecast/what-if.ts'
import { input, itinerary, length, pool, stage, stream } from '#tests/support/forecasting.ts'

const DAYS = 40
const AFTER = { stage: 'limited activity', ready: { kind: 'length', length: length(20, 30) } } as const
const pools = [pool('cage', [2, 1], DAYS), pool('flight', [1], DAYS), pool('far', [1], DAYS)]
const itineraries = ['a', 'b', 'c'].map(id => itinerary(id, [stage('cage'), stage('flight', AFTER)]))
const arrivals = [stream('s', [stage('cage'), stage('flight', AFTER)], 0.1, DAYS)]
const made = forecast(input({ horizonDays: DAYS, pools, itineraries, arrivals }))
const rebuilt = (change: Partial<Parameters<typeof input>[0]>) =>
  forecast(input({ horizonDays: DAYS, pools, itineraries, arrivals, ...change }))

describe('one enclosure more', () => {
  const more = withOneMore(pools[0]!, 1)

  it('equals a rebuild with it, and touches no other pool', () => {
    const after = withPool(made, more)
    const built = rebuilt({ pools: [more, pools[1]!, pools[2]!] })
    expect(poolForecast(getDemand(after, 'cage'))).toEqual(poolForecast(getDemand(built, 'cage')))
    expect(getDemand(after, 'flight')).toBe(getDemand(made, 'flight'))
    expect(shortageChange(made, after)).toBeCloseTo(shortInAll(built) - shortInAll(made), 10)
    expect(shortageChange(made, after)).toBeLessThan(0)
  })

  it('leaves the pool it came from as it was', () => {
    expect(pools[0]!.steps[1]!.capacityByDay[0]).toBe(1)
    expect(more.steps[1]!.capacityByDay[0]).toBe(2)
  })

  it('needs a step that is there, and a pool of the same sizes', () => {
    expect(() => withOneMore(pools[0]!, 2)).toThrow(RangeError)
    expect(() => withPool(made, pool('cage', [2], DAYS))).toThrow(RangeError)
    expect(() => withPool(made, pool('cage', [2, 1], 5))).toThrow(RangeError)
    expect(() => withPool(made, pool('nowhere', [2, 1], DAYS))).toThrow(RangeError)
  })
})

describe('another way for one animal', () => {
  const way = itinerary('b', [stage('cage'), stage('far', AFTER)])

  it('equals a rebuild with it', () => {
    const after = withWay(made, way)
    const built = rebuilt({ itineraries: itineraries.map(one => (one.casualtyId === 'b' ? way : one)) })
    for (const { id } of pools) {
      const [a, b] = [poolForecast(getDemand(after, id)), poolForecast(getDemand(built, id))]
      a.expectedShortByDay.forEach((short, d) => {
        expect(short).toBeCloseTo(b.expectedShortByDay[d]!, 10)
      })
    }
    expect(shortageChange(made, after)).toBeCloseTo(shortInAll(built) - shortInAll(made), 9)
    expect(shortageChange(made, after)).not.toBeCloseTo(0, 3)
  })

  it('needs a casualty and pools that are there', () => {
    expect(() => withWay(made, { ...way, casualtyId: 'z' })).toThrow(RangeError)
    expect(() => withWay(made, itinerary('b', [stage('nowhere')]))).toThrow(RangeError)
  })
})
