import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fitClass, labelLefts, labelPixels, stemRows, textWidth, ticksOf } from '#app/_ui/ribbon/labels.ts'
import { dayOfDate, weekdayOf } from '#lib/domain/day.ts'

const label = fc.record({
  at: fc.double({ min: 0, max: 100, noNaN: true }),
  width: fc.integer({ min: 10, max: 160 }),
})

describe('labels under a ribbon', () => {
  it('never overlap and stay inside, where their widths fit at all', () => {
    fc.assert(
      fc.property(
        fc.array(label, { minLength: 1, maxLength: 7 }),
        fc.integer({ min: 0, max: 900 }),
        (list, spare) => {
          const sorted = list.toSorted((a, b) => a.at - b.at)
          const box = sorted.reduce((sum, one) => sum + one.width, 0) + spare
          let end = 0
          labelPixels(sorted, box).forEach((left, i) => {
            expect(left).toBeGreaterThanOrEqual(end - 1e-6)
            end = left + sorted[i]!.width
          })
          expect(end).toBeLessThanOrEqual(box + 1e-6)
        },
      ),
    )
  })

  it('are told up to which width they must be short', () => {
    const of = (width: number) => [{ at: 0, width }]
    expect(fitClass(of(560), of(340))).toBe('')
    expect(fitClass(of(561), of(340))).toBe('fit-paper')
    expect(fitClass(of(661), of(340))).toBe('fit-long')
    expect(fitClass(of(861), of(341))).toBe('fit-never fit-list')
  })

  it('stand where they belong when there is room', () => {
    expect(
      labelPixels(
        [
          { at: 10, width: 50 },
          { at: 60, width: 50 },
        ],
        500,
      ),
    ).toEqual([50, 300])
    expect(
      labelLefts([
        { at: 10, width: 50 },
        { at: 12.346, width: 60 },
      ]),
    ).toEqual(['min(10%,100% - 110px)', 'min(max(12.35%,min(10%,100% - 110px) + 50px),100% - 60px)'])
  })
})

describe('dates under a picture', () => {
  const today = dayOfDate('2026-11-25')
  const ticks = ticksOf({ fromDay: today, days: 91 }, today)

  it('tick each Monday', () => {
    expect(ticks).toHaveLength(13)
    expect(weekdayOf(today + Math.round((ticks[0]!.at * 91) / 100))).toBe(1)
  })

  it('are written every second week, and none close to today', () => {
    expect(ticks.map(tick => tick.text).filter(text => text !== undefined)).toEqual([
      '14 Dec',
      '28 Dec',
      '11 Jan',
      '25 Jan',
      '8 Feb',
    ])
  })
})

describe('texts of checks', () => {
  it('stand low where they are free of each other', () => {
    expect(
      stemRows(
        [
          { at: 10, width: 80 },
          { at: 50, width: 80 },
        ],
        800,
      ),
    ).toEqual([0, 0])
  })

  it('go one row higher where they would cross the next stem', () => {
    expect(
      stemRows(
        [
          { at: 10, width: 80 },
          { at: 12, width: 80 },
          { at: 14, width: 80 },
        ],
        800,
      ),
    ).toEqual([2, 1, 0])
  })

  it('never cross a stem that reaches their row', () => {
    fc.assert(
      fc.property(fc.array(label, { minLength: 1, maxLength: 9 }), list => {
        const sorted = list.toSorted((a, b) => a.at - b.at)
        const rows = stemRows(sorted, 700)
        sorted.forEach((stem, i) => {
          const row = rows[i]
          if (row === undefined) return
          const from = stem.at * 7
          sorted.slice(i + 1).forEach((other, j) => {
            const reach = rows[i + 1 + j]
            const crosses = other.at * 7 < from + stem.width && reach !== undefined && reach >= row
            expect(crosses).toBe(false)
          })
        })
      }),
    )
  })

  it('are left to the table where they would leave the box', () => {
    expect(stemRows([{ at: 99, width: 300 }], 700)).toEqual([undefined])
  })

  it('are taken for wider than they are drawn', () => {
    expect(textWidth('restricted activity')).toBeGreaterThan(116)
  })
})
