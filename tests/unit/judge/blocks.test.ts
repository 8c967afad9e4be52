import fc from 'fast-check'
import { expect, test } from 'vitest'
import { BLOCKS_MIN, blockDays, ratioOf } from '#lib/judge/blocks.ts'
import { normals, xoshiro } from '#tests/montecarlo/random.ts'

test('of days that are alone in their blocks it is the textbook standard error of a mean', () => {
  const values = [3, 1, 4, 1, 5, 9, 2, 6]
  const parts = values.map((over, i) => ({ day: i * 10, over, under: 1 }))
  const mean = 31 / 8
  const squares = values.reduce((sum, one) => sum + (one - mean) ** 2, 0)
  expect(ratioOf(parts, 10)).toEqual({
    value: mean,
    standardError: expect.closeTo(Math.sqrt(squares / 7 / 8), 12),
  })
})

/** Days that forget with an autocorrelation time of `tau` (sum of all autocorrelations), mean 0. */
function forgetful(days: number, tau: number, seed: number): number[] {
  const normal = normals(xoshiro(seed))
  const keep = (tau - 1) / (tau + 1)
  let at = normal()
  return Array.from({ length: days }, () => {
    at = keep * at + Math.sqrt(1 - keep ** 2) * normal()
    return at
  })
}

// Engine, section 8: at 28 days tau is about 12, so 2,000 days count as some 200.
test('tells the true doubt of days with an autocorrelation time of 12, three times what counting each gives', () => {
  const runs = Array.from(
    { length: 300 },
    (_, run) =>
      ratioOf(
        forgetful(2000, 12, run + 1).map((over, day) => ({ day, over, under: 1 })),
        blockDays(28),
      )!,
  )
  const truth = runs.reduce((sum, { value }) => sum + value ** 2, 0) / runs.length
  const told = runs.reduce((sum, { standardError }) => sum + standardError! ** 2, 0) / runs.length
  // 300 runs know a variance to a twelfth; blocks of 56 days lose a tenth of it.
  expect(told / truth).toBeGreaterThan(0.7)
  expect(told / truth).toBeLessThan(1.25)
  expect(told).toBeGreaterThan(8 / 2000)
})

test('the order and the pieces in which days come do not matter', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.nat(2000), fc.nat(9), fc.integer({ min: 1, max: 9 }))), rows => {
      const parts = rows.map(([day, over, under]) => ({ day, over, under }))
      const a = ratioOf(parts, 56)
      const b = ratioOf(parts.toReversed(), 56)
      expect(b?.value).toBe(a?.value)
      if (a?.standardError) expect(Math.abs(b!.standardError! / a.standardError - 1)).toBeLessThan(1e-12)
    }),
  )
})

test('few blocks tell no doubt, and nothing has no ratio', () => {
  const parts = Array.from({ length: BLOCKS_MIN - 1 }, (_, i) => ({ day: i * 56, over: i, under: 1 }))
  expect(ratioOf(parts, 56)).toEqual({ value: 2, standardError: null })
  expect(ratioOf([...parts, { day: 56 * 9, over: 2, under: 1 }], 56)?.standardError).toBeGreaterThan(0)
  expect(ratioOf([], 56)).toBeNull()
  expect(ratioOf([{ day: 1, over: 1, under: 0 }], 56)).toBeNull()
})

test('longer horizons make longer blocks', () => {
  expect([1, 7, 28, 90].map(blockDays)).toEqual([56, 56, 56, 180])
})
