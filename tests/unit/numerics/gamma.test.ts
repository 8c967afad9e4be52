import { describe, expect, test } from 'vitest'
import { logGammaDraw, sharesOfLogs } from '#lib/numerics/gamma.ts'
import { seededRandom } from '#lib/numerics/random.ts'
import golden from '../../golden/learning.json' with { type: 'json' }

const DRAWS = 6000
/** Distances from scipy's distribution functions, in standard errors of the share seen. */
const z = (seen: number, chance: number) =>
  (seen / DRAWS - chance) / Math.sqrt((chance * (1 - chance)) / DRAWS)

describe('draws follow scipy', () => {
  test.each(golden.gammas)('gamma of shape $shape', ({ shape, points }) => {
    const random = seededRandom(Math.round(shape * 1000))
    const logs = Array.from({ length: DRAWS }, () => logGammaDraw(shape, random))
    for (const [x, chance] of points) {
      expect(Math.abs(z(logs.filter(log => log <= x!).length, chance!)), `${x}`).toBeLessThan(4)
    }
  })

  test.each(golden.betas)('beta of $a and $b, as a share of two gammas', ({ a, b, points }) => {
    const random = seededRandom(Math.round(a * 100))
    const shares = Array.from(
      { length: DRAWS },
      () => sharesOfLogs([logGammaDraw(a, random), logGammaDraw(b, random)])[0]!,
    )
    for (const [x, chance] of points) {
      expect(Math.abs(z(shares.filter(share => share <= x!).length, chance!)), `${x}`).toBeLessThan(4)
    }
  })
})

test('shapes of a far tail keep their proportions where the draws themselves would be 0', () => {
  const random = seededRandom(3)
  for (const shape of [1e-9, 1e-100, 1e-300]) {
    let first = 0
    for (let i = 0; i < 400; i++) {
      const shares = sharesOfLogs([logGammaDraw(3 * shape, random), logGammaDraw(shape, random)])
      expect(shares[0]! + shares[1]!).toBe(1)
      first += shares[0]!
    }
    expect(Math.abs(first / 400 - 0.75)).toBeLessThan(4 * Math.sqrt((0.75 * 0.25) / 400))
  }
})

test('no shape gets no share, the last of none gets all, and a negative shape is refused', () => {
  const random = seededRandom(1)
  expect(sharesOfLogs([logGammaDraw(0, random), logGammaDraw(2, random)])).toEqual([0, 1])
  expect(sharesOfLogs([logGammaDraw(0, random), logGammaDraw(0, random)])).toEqual([0, 1])
  expect(() => logGammaDraw(-1, random)).toThrow('shape needs a number of at least 0, got -1')
  expect(() => logGammaDraw(Number.NaN, random)).toThrow(RangeError)
})
