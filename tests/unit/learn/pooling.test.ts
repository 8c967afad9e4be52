import { describe, expect, test } from 'vitest'
import { GRID_CELLS, LOG_STRETCHES } from '#lib/learn/plan-grid.ts'
import { type PoolCell, pooledPriors } from '#lib/learn/pooling.ts'
import { PLAN_PRIOR, weightsOf } from '#lib/learn/prior-grid.ts'
import { judgedPooled, tellingItsOwn } from '../../support/judged-stages.ts'

const A_STRETCH = GRID_CELLS / LOG_STRETCHES.length
/** A likelihood that knows the log-stretch to within so much, and nothing else. */
const says = (log: number, sd: number) =>
  Float64Array.from(
    { length: GRID_CELLS },
    (_, cell) => -(((LOG_STRETCHES[Math.floor(cell / A_STRETCH)]! - log) / sd) ** 2) / 2,
  )
const nothing = new Float64Array(GRID_CELLS)
const cellOf = (key: string, condition: string, logLikelihood = nothing, stage = 'a stage'): PoolCell => ({
  key,
  stage,
  condition,
  logLikelihood,
})
const moments = (logs: Float64Array) => {
  const weights = weightsOf(logs)
  const log = (cell: number) => LOG_STRETCHES[Math.floor(cell / A_STRETCH)]!
  const mean = weights.reduce((sum, weight, cell) => sum + weight * log(cell), 0)
  return {
    mean,
    sd: Math.sqrt(weights.reduce((sum, weight, cell) => sum + weight * (log(cell) - mean) ** 2, 0)),
  }
}
const told = (cells: readonly PoolCell[], key: string) => moments(pooledPriors(cells).get(key)!)

test('without records anywhere each cell has the plan own prior', () => {
  const priors = pooledPriors([cellOf('a', 'x'), cellOf('b', 'x'), cellOf('c', 'y')])
  for (const key of ['a', 'b', 'c']) {
    expect(moments(priors.get(key)!).mean).toBeCloseTo(0, 10)
    expect(moments(priors.get(key)!).sd).toBeCloseTo(moments(PLAN_PRIOR).sd, 1)
  }
})

// Normal deviations: stage 0.24, condition 0.25, cell 0.2, so the mean and sd below are those of a normal regression.
describe('what others found', () => {
  test('tells a cell of the same condition most, of the same stage some, of another stage nothing', () => {
    const found = says(0.5, 0.1)
    const cells = [
      cellOf('found', 'x', found),
      cellOf('same condition', 'x'),
      cellOf('same stage', 'y'),
      cellOf('other stage', 'x', nothing, 'another'),
    ]
    const all = 0.24 ** 2 + 0.25 ** 2 + 0.2 ** 2 + 0.1 ** 2
    expect(told(cells, 'same condition').mean).toBeCloseTo((0.5 * (0.24 ** 2 + 0.25 ** 2)) / all, 1)
    expect(told(cells, 'same stage').mean).toBeCloseTo((0.5 * 0.24 ** 2) / all, 1)
    expect(told(cells, 'other stage').mean).toBeCloseTo(0, 10)
    const sd = Math.sqrt(0.1601 - (0.24 ** 2 + 0.25 ** 2) ** 2 / all)
    expect(told(cells, 'same condition').sd).toBeCloseTo(sd, 1)
  })

  test('never makes a cell surer than cells of one condition are alike', () => {
    const many = Array.from({ length: 50 }, (_, i) => cellOf(`found ${i}`, 'x', says(0.4, 0.02)))
    const { mean, sd } = told([cellOf('new', 'x'), ...many], 'new')
    expect(mean).toBeCloseTo(0.4, 1)
    expect(sd).toBeGreaterThan(0.18)
  })

  test('does not depend on the order of cells', () => {
    const cells = [cellOf('a', 'x', says(0.3, 0.1)), cellOf('b', 'x'), cellOf('c', 'y', says(-0.2, 0.2))]
    const one = pooledPriors(cells)
    const other = pooledPriors([...cells].reverse())
    for (const { key } of cells)
      expect(moments(other.get(key)!).mean).toBeCloseTo(moments(one.get(key)!).mean, 10)
  })
})

test('a cell is told nothing of its own records, however many', () => {
  const others = [cellOf('b', 'x', says(0.3, 0.1)), cellOf('c', 'y', says(-0.2, 0.2))]
  const without = told([cellOf('a', 'x'), ...others], 'a')
  const own = Float64Array.from(says(0.9, 0.05), log => 500 * log)
  const withOwn = told([cellOf('a', 'x', own), ...others], 'a')
  expect(withOwn.mean).toBeCloseTo(without.mean, 6)
  expect(withOwn.sd).toBeCloseTo(without.sd, 6)
})

test('refuses a key twice', () => {
  expect(() => pooledPriors([cellOf('a', 'x'), cellOf('a', 'y')])).toThrow(
    'cells need distinct keys, got a twice',
  )
})

describe('cells of a network drawn from such a tree', () => {
  const WORLDS = 5
  const DRAWS = 30
  const apart = judgedPooled(WORLDS, DRAWS, prior => prior)

  test('are held by nine chances in ten about that often, and told better than alone', () => {
    const { value, standardError } = apart.coverage
    expect(Math.abs(value - 0.9), `${value}`).toBeLessThan(2.5 * standardError + 0.02)
    expect(apart.error.value).toBeLessThan(judgedPooled(WORLDS, DRAWS, () => PLAN_PRIOR).error.value)
  })

  test('are held less often where a cell is told its own records too, at each of the two levels above it', () => {
    const reused = judgedPooled(WORLDS, DRAWS, tellingItsOwn)
    expect(reused.squareInSds).toBeGreaterThan(1.2 * apart.squareInSds)
    expect(reused.coverage.value).toBeLessThanOrEqual(apart.coverage.value)
  })
})
