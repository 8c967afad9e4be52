import { describe, expect, it } from 'vitest'
import { bandPoints, curvePoints, tableDays, ticksOf } from '#app/(desk)/records/_parts/curve-data.ts'

describe('the picture of a stage', () => {
  it('begins with all of them, and each day ends a day further right', () => {
    expect(curvePoints(Float64Array.of(1, 0.5, 0.125))).toBe('0,0 1,0.00 2,50.00 3,87.50')
    expect(bandPoints(Float64Array.of(0.5, 0), Float64Array.of(1, 0.25))).toBe(
      '0,0 1,0.00 2,75.00 2,100.00 1,50.00',
    )
  })

  it('names at most seven days, at even steps', () => {
    expect(ticksOf(5)).toEqual([0, 1, 2, 3, 4, 5])
    expect(ticksOf(20)).toEqual([0, 5, 10, 15, 20])
    expect(ticksOf(240)).toEqual([0, 50, 100, 150, 200])
    for (let days = 1; days < 1600; days++) {
      const ticks = ticksOf(days)
      expect(ticks.length).toBeLessThanOrEqual(7)
      expect(ticks.at(-1)).toBeLessThanOrEqual(days)
    }
  })

  it('has a table with every early day and the last', () => {
    expect(tableDays(3)).toEqual([0, 1, 2])
    expect(tableDays(40)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 21, 28, 35, 39])
    expect(tableDays(400).length).toBeLessThan(40)
  })
})
