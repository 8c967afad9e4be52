import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { choleskyOf, inverseBy, solveBy } from '#lib/numerics/cholesky.ts'

const times = (a: readonly Float64Array[], x: Float64Array) =>
  Float64Array.from(a, row => row.reduce((sum, one, i) => sum + one * x[i]!, 0))

describe('a factor', () => {
  it('is the one of the worked example', () => {
    // [[4, 12, -16], [12, 37, -43], [-16, -43, 98]] = L L' with L = [2; 6 1; -8 5 3]: textbook example, by hand.
    const a = [
      [4, 0, 0],
      [12, 37, 0],
      [-16, -43, 98],
    ].map(row => Float64Array.from(row))
    expect(choleskyOf(a).map(row => [...row])).toEqual([
      [2, 0, 0],
      [6, 1, 0],
      [-8, 5, 3],
    ])
  })

  it('refuses what is not positive definite', () => {
    const a = [
      [1, 2],
      [2, 1],
    ].map(row => Float64Array.from(row))
    expect(() => choleskyOf(a)).toThrow(RangeError)
  })
})

it('solves and inverts what it factors', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 7 }).chain(n =>
        fc.tuple(
          fc.array(fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: n, maxLength: n }), {
            minLength: n,
            maxLength: n,
          }),
          fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: n, maxLength: n }),
        ),
      ),
      ([b, x]) => {
        // B B' + I is positive definite whatever B is.
        const a = b.map((row, i) =>
          Float64Array.from(b, (other, j) => row.reduce((s, one, k) => s + one * other[k]!, Number(i === j))),
        )
        const lower = choleskyOf(a)
        const solved = solveBy(lower, times(a, Float64Array.from(x)))
        for (const [i, one] of x.entries()) expect(solved[i]).toBeCloseTo(one, 8)
        const inverse = inverseBy(lower)
        for (const [i, row] of inverse.entries())
          for (const [j, one] of times(a, row).entries()) expect(one).toBeCloseTo(Number(i === j), 8)
      },
    ),
  )
})
