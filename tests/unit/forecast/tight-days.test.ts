import { describe, expect, it } from 'vitest'
import { forecast } from '#lib/forecast/forecast.ts'
import { listTightDays, shortInAll, worstDay } from '#lib/forecast/tight-days.ts'
import { input, itinerary, pool, stage } from '#tests/support/forecasting.ts'

const CHANCES = [0.1, 0.2, 0.35, 0.19999, 0.35, 0.6]

describe('the worst day', () => {
  it('is the earliest of the largest within the days that are asked for', () => {
    expect(worstDay(CHANCES, 5)).toEqual({ day: 2, chance: 0.35 })
    expect(worstDay(CHANCES, 180)).toEqual({ day: 5, chance: 0.6 })
  })

  it('needs a day', () => {
    expect(() => worstDay([], 14)).toThrow(RangeError)
    expect(() => worstDay(CHANCES, 0)).toThrow(RangeError)
  })
})

describe('tight days', () => {
  it('begin at the threshold itself and end with the days that are asked for', () => {
    expect(listTightDays(CHANCES, 0.2, 5)).toEqual([1, 2, 4])
    expect(listTightDays(CHANCES, 0.7, 180)).toEqual([])
  })
})

describe('what is short in all', () => {
  // One animal that needs a place for certain tonight, in a pool that has none: each night it is there is short.
  const made = forecast(
    input({
      horizonDays: 20,
      pools: [pool('none', [0], 20), pool('ample', [9], 20)],
      itineraries: [itinerary('a', [stage('none')]), itinerary('b', [stage('ample')])],
    }),
  )

  it('adds the days of all pools, or of those that are named', () => {
    const present = made.demands.get('none')?.classes[0]?.companies[0]?.members[0]?.presence ?? []
    const nights = Array.from(present).reduce((sum, p) => sum + p, 0)
    expect(nights).toBeGreaterThan(1)
    expect(shortInAll(made)).toBeCloseTo(nights, 12)
    expect(shortInAll(made, ['ample'])).toBe(0)
    expect(() => shortInAll(made, ['elsewhere'])).toThrow(RangeError)
  })
})
