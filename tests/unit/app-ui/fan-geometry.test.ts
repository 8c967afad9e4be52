import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FanData } from '#app/_ui/fan/fan-data.ts'
import { changesOf, fanOf, placesOn, scaleOf, spread, stepsOf, worstOf } from '#app/_ui/fan/geometry.ts'

function fan(over: Partial<FanData>): FanData {
  const day = { q10: 1, q25: 2, median: 3, q75: 4, q90: 5 }
  return {
    todayDay: 1000,
    past: [2, 3],
    ahead: [day, day, day],
    capacity: [{ fromDay: 900, places: 6 }],
    shortByDay: [0, 0, 0],
    noun: 'animals',
    ...over,
  }
}

describe('the scale of a fan', () => {
  it('begins at 0, holds every mark and has at most six lines', () => {
    const count = fc.integer({ min: 0, max: 2000 })
    fc.assert(
      fc.property(count, count, count, (places, night, q90) => {
        const data = fan({
          past: [night],
          ahead: [{ q10: 0, q25: 0, median: 0, q75: 0, q90 }],
          capacity: [{ fromDay: 0, places }],
        })
        const { top, gridLines } = scaleOf(data)
        expect(top).toBeGreaterThan(Math.max(places, night, q90))
        expect(gridLines[0]).toBe(0)
        expect(gridLines.at(-1)).toBe(top)
        expect(gridLines.length).toBeLessThanOrEqual(7)
      }),
    )
  })
})

describe('the shapes of a fan', () => {
  it('step through the nights that were', () => {
    const { past, top } = fanOf(fan({}))
    expect(past.map(([x, y]) => [x, top - y])).toEqual([
      [0, 2],
      [1, 2],
      [1, 3],
      [2, 3],
    ])
  })

  it('hatch nothing while the band stays under the places', () => {
    expect(fanOf(fan({})).over).toEqual([])
    expect(fanOf(fan({ capacity: [{ fromDay: 0, places: 5 }] })).over).toEqual([])
  })

  it('hatch exactly the band above the places', () => {
    const { over, top } = fanOf(fan({ capacity: [{ fromDay: 0, places: 4 }] }))
    const heights = over.map(([, y]) => top - y)
    expect(Math.max(...heights)).toBe(5)
    expect(Math.min(...heights)).toBe(4)
    expect(Math.min(...over.map(([x]) => x))).toBe(2)
  })

  it('begin the hatching where the edge crosses the line, not at the next day', () => {
    const low = { q10: 0, q25: 0, median: 0, q75: 0, q90: 2 }
    const { over, top } = fanOf(
      fan({ past: [], ahead: [low, { ...low, q90: 6 }], capacity: [{ fromDay: 0, places: 3 }] }),
    )
    expect(over).toContainEqual([0.25, top - 3])
  })

  it('step with the places', () => {
    const data = fan({
      capacity: [
        { fromDay: 1001, places: 4, reason: 'shut' },
        { fromDay: 0, places: 6 },
      ],
    })
    expect(stepsOf(data, 5)).toEqual([
      { from: 0, to: 3, places: 6 },
      { from: 3, to: 5, places: 4 },
    ])
    expect(changesOf(data)).toEqual([{ fromDay: 1001, places: 4, reason: 'shut' }])
    expect([placesOn(data, 1000), placesOn(data, 1001)]).toEqual([6, 4])
  })
})

it('labels at the right are moved apart and keep their order', () => {
  expect(spread([10, 12, 100], 14, 0, 280)).toEqual([10, 24, 100])
  expect(spread([279, 280], 14, 0, 280)).toEqual([266, 280])
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 280, noNaN: true }), { minLength: 1, maxLength: 6 }),
      heights => {
        const placed = spread(heights, 16, 0, 280).toSorted((a, b) => a - b)
        placed.forEach((y, i) => {
          expect(y).toBeGreaterThanOrEqual(-1e-9)
          expect(y).toBeLessThanOrEqual(280 + 1e-9)
          if (i > 0) expect(y - placed[i - 1]!).toBeGreaterThanOrEqual(16 - 1e-9)
        })
      },
    ),
  )
})

it('names the worst day only when it is tight', () => {
  expect(worstOf(fan({ shortByDay: [0.1, 0.3, 0.2] }), 0.2)).toEqual({ day: 1001, chance: 0.3 })
  expect(worstOf(fan({ shortByDay: [0.1] }), 0.2)).toBeUndefined()
})
