import { describe, expect, test } from 'vitest'
import {
  lengthEstimate,
  monthDay,
  type StageEstimate,
  saysTheSame,
  stageEstimate,
  sumOfShares,
} from '#lib/domain/estimate.ts'
import type { StageEstimate as ForecastEstimate } from '#lib/forecast/model.ts'

const estimate: StageEstimate = {
  stage: 'critical care',
  ready: { kind: 'length', length: { medianDays: 3, p90Days: 7 } },
  shares: { onward: 0.7, died: 0.24, euthanased: 0.06, left: 0 },
  died: { medianDays: 1.2, p90Days: 5 },
  euthanased: { medianDays: 1, p90Days: 5 },
}

describe('the estimate of a stage', () => {
  test('is read as it was written', () => {
    expect(stageEstimate.parse(estimate)).toEqual(estimate)
  })

  test('is what the forecast reads, both ways', () => {
    const there: ForecastEstimate = estimate
    const back: StageEstimate = there
    expect(back).toBe(estimate)
  })

  test.each([
    [{ ...estimate, shares: { ...estimate.shares, left: 0.1 } }, 'shares-do-not-sum'],
    [{ ...estimate, died: { medianDays: 5, p90Days: 5 } }, 'p90-not-above-median'],
    [{ ...estimate, ready: { ...gate(), opens: '02-30' } }, 'not-a-day-of-the-year'],
  ])('refuses %j', (wrong, rule) => {
    const read = stageEstimate.safeParse(wrong)
    expect(read.error?.issues.map(issue => issue.code === 'custom' && issue.params?.['rule'])).toEqual([rule])
  })

  test('reads a gate by date', () => {
    expect(stageEstimate.parse({ ...estimate, ready: gate() }).ready).toEqual(gate())
  })

  test('keeps the first day of a check that bars the way, in whole days', () => {
    expect(stageEstimate.parse({ ...estimate, leastDays: 17 }).leastDays).toBe(17)
    expect(stageEstimate.safeParse({ ...estimate, leastDays: 1.5 }).success).toBe(false)
    expect(stageEstimate.safeParse({ ...estimate, leastDays: -1 }).success).toBe(false)
  })

  test('knows the days of the year, the leap day too', () => {
    const days = ['01-01', '02-29', '12-31', '00-10', '13-01', '04-31', '3-20']
    expect(days.filter(day => monthDay.safeParse(day).success)).toEqual(['01-01', '02-29', '12-31'])
  })

  test('refuses a length without time', () => {
    expect(lengthEstimate.safeParse({ medianDays: 0, p90Days: 2 }).success).toBe(false)
  })

  test('says the same in whatever order it was stored, and whatever check it waits for', () => {
    const stored = Object.fromEntries(Object.entries(structuredClone(estimate)).reverse())
    const again = { ...stageEstimate.parse(stored), leastDays: 9 }
    expect(saysTheSame(estimate, again)).toBe(true)
    const dated = stageEstimate.parse({ ...estimate, ready: gate() })
    expect(saysTheSame(dated, stageEstimate.parse({ ...estimate, ready: { ...gate(), minDays: 11 } }))).toBe(
      false,
    )
    expect(saysTheSame(dated, stageEstimate.parse(estimate))).toBe(false)
    const later = { ...stageEstimate.parse(estimate), died: { medianDays: 3, p90Days: 31 } }
    expect(saysTheSame(stageEstimate.parse(estimate), later)).toBe(false)
  })

  test('adds the four endings', () => {
    expect(sumOfShares(estimate.shares)).toBeCloseTo(1, 12)
  })
})

function gate() {
  return {
    kind: 'date gate',
    opens: '03-20',
    closes: '05-31',
    minDays: 10,
    lag: { medianDays: 13, p90Days: 35 },
  }
}
