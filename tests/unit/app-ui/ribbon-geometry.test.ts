import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  clipPolygon,
  groundOf,
  heightOf,
  PROFILE_PX,
  profileOf,
  simplified,
  slopesOf,
  svgPoints,
} from '#app/_ui/ribbon/geometry.ts'
import type { RibbonData, RibbonStage } from '#app/_ui/ribbon/ribbon-data.ts'
import { CARE_STAGES } from '#lib/domain/housing.ts'

const AXIS = { fromDay: 1000, days: 90 }

function stage(index: number, q25: number, q75: number): RibbonStage {
  const median = (q25 + q75) / 2
  return {
    stage: CARE_STAGES[index % CARE_STAGES.length]!,
    end: { q10: q25 - 1, q25, median, q75, q90: q75 + 1 },
    centre: 'Withy Mead',
  }
}

function stay(stages: RibbonStage[], groundByDay: number[] = []): RibbonData {
  return { startDay: 1000, todayDay: 1000, stages, groundByDay, checks: [] }
}

describe('slopes of a ribbon', () => {
  it('run from the 25th to the 75th percentile where they have room', () => {
    expect(slopesOf(stay([stage(0, 1003, 1006), stage(2, 1010, 1020)]), AXIS)).toEqual([
      { from: 3, to: 6 },
      { from: 10, to: 20 },
    ])
  })

  it('meet at the midpoint where they would cross', () => {
    expect(slopesOf(stay([stage(0, 1003, 1012), stage(2, 1006, 1020)]), AXIS)).toEqual([
      { from: 3, to: 9 },
      { from: 9, to: 20 },
    ])
  })

  it('never cross, whatever the percentiles', () => {
    const pair = fc.tuple(
      fc.double({ min: 990, max: 1100, noNaN: true }),
      fc.double({ min: 0, max: 60, noNaN: true }),
    )
    fc.assert(
      fc.property(fc.array(pair, { minLength: 1, maxLength: 8 }), pairs => {
        const slopes = slopesOf(stay(pairs.map(([q25, wide], i) => stage(i, q25, q25 + wide))), AXIS)
        let last = 0
        for (const { from, to } of slopes) {
          expect(from).toBeGreaterThanOrEqual(last - 1e-9)
          expect(to).toBeGreaterThanOrEqual(from - 1e-9)
          last = to
        }
      }),
    )
  })

  it('are upright for what has happened', () => {
    const [slope] = slopesOf(stay([stage(0, 1004, 1004)]), AXIS)
    expect(slope).toEqual({ from: 4, to: 4 })
  })
})

describe('the profile', () => {
  it('grows with freedom, overwintering as high as limited', () => {
    expect(CARE_STAGES.map(heightOf)).toEqual([10, 10, 18, 27, 38, 27])
  })

  it('begins and ends on the ground, and has a divider between any two bands', () => {
    const { bands, dividers, silhouette } = profileOf(
      stay([stage(0, 1003, 1006), stage(2, 1010, 1020)]),
      AXIS,
    )
    expect(silhouette[0]).toEqual([0, PROFILE_PX])
    expect(silhouette.at(-1)).toEqual([20, PROFILE_PX])
    expect(bands).toHaveLength(2)
    expect(dividers).toEqual([
      [
        [3, 34],
        [6, 44],
      ],
    ])
  })
})

describe('the ground', () => {
  const oneStage = [stage(2, 1010, 1020)]

  it('is whole where a place is missing on one day in twenty or less', () => {
    const ground = groundOf(
      stay(
        oneStage,
        Array.from({ length: 30 }, () => 0.05),
      ),
      AXIS,
    )
    expect(ground.hole).toEqual([])
    expect(ground.tone).toBe('firm')
    expect(ground.slab).toEqual([
      [0, 0],
      [20, 0],
      [20, 1],
      [0, 1],
    ])
  })

  it('has a hole as deep as the chance, coloured by the worst day of the stay only', () => {
    const byDay = Array.from({ length: 40 }, (_, day) => (day === 8 ? 0.4 : day === 30 ? 0.9 : 0))
    const ground = groundOf(stay(oneStage, byDay), AXIS)
    expect(ground.surface).toContainEqual([8, 0.4])
    expect(ground.tone).toBe('uncertain')
    expect(Math.max(...ground.surface.map(([, y]) => y))).toBe(0.4)
  })

  it('begins today, not when the stay began', () => {
    const data = { ...stay(oneStage, [0.3, 0.3]), todayDay: 1005 }
    expect(groundOf(data, AXIS).surface[0]).toEqual([5, 0.3])
  })
})

describe('points', () => {
  it('leave out what lies on a straight run and keep every bend', () => {
    const curve = Array.from({ length: 61 }, (_, x) => [x, 0.3 * Math.exp(-(((x - 30) / 14) ** 2))] as const)
    const fewer = simplified(curve)
    expect(fewer.length).toBeLessThan(40)
    expect(fewer[0]).toEqual(curve[0])
    expect(fewer.at(-1)).toEqual(curve.at(-1))
    for (const [x, y] of curve) {
      const after = fewer.findIndex(point => point[0] >= x)
      const b = fewer[after]!
      const a = fewer[Math.max(0, after - 1)]!
      const between = b[0] === a[0] ? b[1] : a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1])
      expect(Math.abs(between - y)).toBeLessThanOrEqual(0.0021)
    }
  })

  it('are written with two decimals', () => {
    expect(svgPoints([[1 / 3, 2]])).toBe('0.33,2')
    expect(clipPolygon([[1, 1]], 8, 3)).toBe('polygon(12.5% 33.33%)')
  })
})
