import { describe, expect, test } from 'vitest'
import { addEvidence, type Evidence, evidenceOfPlan } from '#lib/learn/evidence.ts'
import {
  EARLY_ODDS,
  firstGrid,
  GRID_CELLS,
  gridLikelihood,
  LOG_STRETCHES,
  lawAt,
  mixtureOf,
  planGrid,
  SPREADS,
  stretched,
} from '#lib/learn/plan-grid.ts'
import { trialsOf } from '#lib/learn/trials.ts'
import { estimate, OVERWINTERING, TODAY } from '../../support/forecasting.ts'
import { ended, inCare, unseenAfter } from '../../support/learning.ts'

const DAYS = 90
const FIELDS = ['died', 'euthanased', 'left', 'kept', 'onward', 'stayed'] as const
const PLANS = [
  { name: 'a length', plan: estimate({ shares: { onward: 0.6, died: 0.2, euthanased: 0.15, left: 0.05 } }) },
  {
    name: 'a date gate',
    plan: { ...OVERWINTERING, shares: { onward: 0.7, died: 0.15, euthanased: 0.1, left: 0.05 } },
  },
]

/** Every cell by the law of the plan changed so: the long way, which the grid takes apart. */
function lawsOf(plan: (typeof PLANS)[number]['plan']) {
  return LOG_STRETCHES.flatMap(stretch =>
    SPREADS.flatMap(spread =>
      EARLY_ODDS.map(odds => evidenceOfPlan(stretched(plan, stretch, spread, odds), DAYS)),
    ),
  )
}

function farthest(a: Evidence, b: Evidence): number {
  return Math.max(
    ...FIELDS.flatMap(field =>
      a[field].map((one, d) => Math.abs(one - b[field][d]!)).reduce((x, y) => Math.max(x, y)),
    ),
  )
}

describe.each(PLANS)('the grid of $name', ({ plan }) => {
  const laws = lawsOf(plan)
  const grid = firstGrid(plan, DAYS)

  test('has in each cell the law of the plan changed so', () => {
    expect(laws).toHaveLength(GRID_CELLS)
    for (const [cell, law] of laws.entries()) {
      expect(farthest(lawAt(grid, cell), law)).toBeLessThan(1e-14)
      for (const exit of ['onward', 'died', 'euthanased', 'left'] as const) {
        expect(lawAt(grid, cell).beyond[exit]).toBeCloseTo(law.beyond[exit], 10)
      }
    }
  })

  test('mixes laws, never hazards', () => {
    const weights = Float64Array.from(laws, (_, cell) => ((cell * 37) % 101) / 1000)
    const pieces = laws.map((of, cell) => ({ weight: weights[cell]!, of }))
    expect(farthest(mixtureOf(grid, weights), addEvidence(pieces, DAYS))).toBeLessThan(1e-12)
  })

  test('gives records the chance that each law gives them', () => {
    const gate = plan.ready.kind === 'length' ? {} : { gate: { opens: TODAY - 5000 + 9 } }
    const records = trialsOf(
      [
        ended('onward', 12, gate),
        ended('onward', 30, { earliest: 20, ...gate }),
        ended('died', 3),
        ended('euthanased', 7),
        unseenAfter(40),
        inCare(DAYS + 10),
      ],
      TODAY,
      DAYS,
    )
    const told = gridLikelihood(grid, records)
    for (const [cell, law] of laws.entries()) {
      let sum = 0
      for (let d = 0; d < DAYS; d++) {
        const all = law.died[d]! + law.euthanased[d]! + law.left[d]! + law.kept[d]!
        const able = law.onward[d]! + law.stayed[d]!
        for (const field of ['died', 'euthanased', 'left', 'kept'] as const) {
          if (records[field][d]! > 0)
            sum += records[field][d]! * Math.log(Math.max(1e-9, law[field][d]! / all))
        }
        for (const field of ['onward', 'stayed'] as const) {
          if (records[field][d]! > 0)
            sum += records[field][d]! * Math.log(Math.max(1e-9, law[field][d]! / able))
        }
      }
      expect(Math.abs(told[cell]! - sum)).toBeLessThan(1e-9 * Math.abs(sum))
    }
  })
})

describe('a cell', () => {
  test('stretches the time to ready, spreads it, and moves the odds of death alone', () => {
    const plan = estimate()
    const moved = stretched(plan, Math.log(1.5), 1.4, 1)
    expect(moved.ready).toMatchObject({ length: { medianDays: expect.closeTo(18, 12) } })
    expect(moved.died).toBe(plan.died)
    const odds = (one: typeof plan) =>
      (one.shares.died + one.shares.euthanased) / (one.shares.onward + one.shares.left)
    expect(odds(moved) / odds(plan)).toBeCloseTo(Math.E, 12)
    expect(moved.shares.died / moved.shares.euthanased).toBeCloseTo(
      plan.shares.died / plan.shares.euthanased,
      12,
    )
    const sum = Object.values(moved.shares).reduce((a, b) => a + b)
    expect(sum).toBeCloseTo(1, 12)
  })

  test('of a date gate stretches what comes after it opens', () => {
    const { ready } = stretched(OVERWINTERING, Math.log(2), 1, 0)
    expect(ready).toMatchObject({ opens: '03-20', minDays: 10, lag: { medianDays: 26, p90Days: 70 } })
  })

  test('of a plan in which nobody dies, or all do, leaves the shares', () => {
    for (const died of [0, 1]) {
      const shares = { onward: 1 - died, died, euthanased: 0, left: 0 }
      expect(stretched(estimate({ shares }), 0, 1, 1.5).shares).toEqual(shares)
    }
  })
})

test('another grid has as many cells as it has stretches, and the first is made once a plan', () => {
  const plan = estimate()
  expect(planGrid(plan, 5, [0, 1, 2]).ready).toHaveLength(3 * SPREADS.length)
  expect(firstGrid(plan, 20)).toBe(firstGrid(plan, 20))
  expect(firstGrid(plan, 30).days).toBe(30)
})
