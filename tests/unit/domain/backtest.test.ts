import { describe, expect, it } from 'vitest'
import { isOpen, JUDGED_HORIZONS, LEARN_DAYS, originsToJudge } from '#lib/domain/backtest.ts'
import { dayOfDate } from '#lib/domain/day.ts'

describe('days to judge', () => {
  const from = dayOfDate('2024-11-29')
  const asOf = dayOfDate('2026-11-29')

  it('are all the days of the grid with half a year before them and a day after, the newest first', () => {
    const wanted: number[] = []
    for (let day = asOf; day >= from; day--) {
      if (day % 14 === 0 && day >= from + LEARN_DAYS && day + 1 < asOf) wanted.push(day)
    }
    expect(wanted).toHaveLength(39)
    expect(originsToJudge(from, asOf)).toEqual(wanted)
  })

  it('stay where they are as days go by', () => {
    const now = originsToJudge(from, asOf)
    for (let later = 1; later < 60; later++) {
      const then = originsToJudge(from, asOf + later)
      expect(then.slice(-now.length)).toEqual(now)
      expect(then.length - now.length).toBeLessThanOrEqual(Math.ceil(later / 14))
    }
  })

  it('are none without records, or with too few', () => {
    expect(originsToJudge(null, asOf)).toEqual([])
    expect(originsToJudge(asOf - LEARN_DAYS - JUDGED_HORIZONS[0], asOf)).toEqual([])
    expect(originsToJudge(asOf, asOf)).toEqual([])
    const counts = Array.from({ length: 14 }, (_, day) => originsToJudge(0, LEARN_DAYS + 2 + day).length)
    expect(Math.min(...counts)).toBe(0)
    expect(Math.max(...counts)).toBe(1)
  })
})

it('a run is open until it ends, either way', () => {
  const at = new Date('2026-06-10T12:00Z')
  expect(isOpen({ cancelledAt: null, finishedAt: null })).toBe(true)
  expect(isOpen({ cancelledAt: at, finishedAt: null })).toBe(false)
  expect(isOpen({ cancelledAt: null, finishedAt: at })).toBe(false)
})
