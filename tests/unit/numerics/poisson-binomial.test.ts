import fc from 'fast-check'
import { expect, test } from 'vitest'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { addTrial, removeTrial } from '#lib/numerics/poisson-binomial.ts'
import { newWork } from '#lib/numerics/work.ts'
import golden from '../../golden/counts.json' with { type: 'json' }

function pmfOf(chances: readonly number[]): { pmf: Float64Array; top: number } {
  const pmf = new Float64Array(chances.length + 2)
  pmf[0] = 1
  let top = 0
  for (const p of chances) top = addTrial(pmf, 0, top, p, newWork())
  return { pmf, top }
}

test('five trials by hand', () => {
  const { pmf } = pmfOf([0.1, 0.2, 0.3, 0.4, 0.5])
  const expected = [0.1512, 0.3714, 0.3274, 0.1274, 0.0214, 0.0012]
  expected.forEach((p, k) => {
    expect(pmf[k]).toBeCloseTo(p, 15)
  })
})

test('ten trials of i/11', () => {
  const { pmf } = pmfOf(Array.from({ length: 10 }, (_, i) => (i + 1) / 11))
  expect(Math.abs(pmf[5]! / 0.291693107753971 - 1)).toBeLessThan(1e-13)
})

// 600 trials: the figures were computed in R; counts.py repeats them with exact fractions.
test('six hundred trials: mean and upper tail', () => {
  const { pmf, top } = pmfOf(Array.from({ length: 600 }, (_, i) => ((i % 97) + 1) / 101))
  expect(neumaierSum(pmf.map((p, k) => p * k))).toBeCloseTo(284.04950495, 7)
  expect(Math.abs(neumaierSum(pmf.slice(301, top + 1)) / 0.051757314844 - 1)).toBeLessThan(1e-9)
  expect(Math.abs(neumaierSum(pmf.slice(301, top + 1)) / golden.sixHundredAbove300 - 1)).toBeLessThan(1e-10)
  expect(neumaierSum(pmf)).toBeCloseTo(1, 13)
})

test('removing any trial gives back the distribution without it', () => {
  const chance = fc.double({ min: 0, max: 1, noNaN: true })
  fc.assert(
    fc.property(fc.array(chance, { minLength: 1, maxLength: 40 }), fc.nat(), (chances, pick) => {
      const at = pick % chances.length
      const { pmf, top } = pmfOf(chances)
      removeTrial(pmf, 0, top, chances[at]!, newWork())
      const rebuilt = pmfOf(chances.toSpliced(at, 1)).pmf
      for (let k = 0; k < chances.length; k++) expect(Math.abs(pmf[k]! - rebuilt[k]!)).toBeLessThan(1e-13)
    }),
  )
})

test('removes one of six hundred in either direction without loss', () => {
  const chances = Array.from({ length: 600 }, (_, i) => ((i % 97) + 1) / 101)
  for (const at of [2, 40, 60, 95]) {
    const { pmf, top } = pmfOf(chances)
    removeTrial(pmf, 0, top, chances[at]!, newWork())
    const rebuilt = pmfOf(chances.toSpliced(at, 1)).pmf
    for (let k = 0; k < 600; k++) expect(Math.abs(pmf[k]! - rebuilt[k]!)).toBeLessThan(3e-16)
  }
})

test('works inside a larger buffer and touches nothing beside it', () => {
  const buffer = new Float64Array(8).fill(7)
  buffer[3] = 1
  expect(addTrial(buffer, 3, 0, 0.25, newWork())).toBe(1)
  expect(Array.from(buffer)).toEqual([7, 7, 7, 0.75, 0.25, 7, 7, 7])
})
