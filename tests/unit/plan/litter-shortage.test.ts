import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addedShortage } from '#lib/forecast/added-shortage.ts'
import { atLeast, dayShortage, shortageByDay } from '#lib/plan/litter-shortage.ts'

const chance = fc.double({ min: 0, max: 1, noNaN: true })

/** Exact distribution of a sum of independent trials, by convolution. */
function distribution(ps: readonly number[]): number[] {
  let pmf = [1]
  for (const p of ps) pmf = [...pmf, 0].map((q, k) => q * (1 - p) + (pmf[k - 1] ?? 0) * p)
  return pmf
}

function tail(pmf: readonly number[], from: number): number {
  return pmf.slice(Math.max(0, from)).reduce((sum, p) => sum + p, 0)
}

describe('atLeast', () => {
  it('gives the tails of a binomial', () => {
    // Closed form: 1 - 0.6^3; 3 * 0.4^2 * 0.6 + 0.4^3; 0.4^3.
    expect([...atLeast(3, 0.4)]).toEqual([
      expect.closeTo(0.784, 15),
      expect.closeTo(0.352, 15),
      expect.closeTo(0.064, 15),
    ])
  })

  it('sums to the mean and falls in n', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), chance, (count, p) => {
        const tails = atLeast(count, p)
        expect(tails.reduce((sum, q) => sum + q, 0)).toBeCloseTo(count * p, 12)
        for (const [n, q] of tails.entries()) {
          expect(q).toBeGreaterThanOrEqual(0)
          expect(q).toBeLessThanOrEqual(tails[n - 1] ?? 1)
        }
      }),
    )
  })

  it('refuses what is no count and no chance', () => {
    expect(() => atLeast(0, 0.5)).toThrow('count needs')
    expect(() => atLeast(1.5, 0.5)).toThrow('count needs')
    expect(() => atLeast(2, 1.1)).toThrow('p needs')
    expect(() => atLeast(2, Number.NaN)).toThrow('p needs')
  })
})

describe('dayShortage', () => {
  const others = distribution([0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3])
  const priceAgainst = (capacity: number) => (nth: number) => tail(others, capacity - nth + 1)

  it('prices one newcomer as the reference does', () => {
    // The project's engine notes, section 5: 0.436668.
    expect(dayShortage(1, 0.6, priceAgainst(4))).toBeCloseTo(0.436668, 12)
  })

  it('prices litter-mates that go the same way exactly, not one by one', () => {
    fc.assert(
      fc.property(
        fc.array(chance, { maxLength: 8 }),
        fc.integer({ min: 1, max: 6 }),
        chance,
        fc.integer({ min: 0, max: 8 }),
        (residents, count, p, capacity) => {
          const demand = distribution(residents)
          const exact = addedShortage(demand, distribution(new Array<number>(count).fill(p)), capacity)
          const ours = dayShortage(count, p, nth => tail(demand, capacity - nth + 1))
          expect(ours).toBeCloseTo(exact, 12)
        },
      ),
    )
  })

  it('asks no price on a day when nobody is there', () => {
    expect(
      dayShortage(2, 0, () => {
        throw new Error('asked')
      }),
    ).toBe(0)
  })
})

describe('shortageByDay', () => {
  it('is that of each day', () => {
    const prices = [new Float64Array([0.5, 0]), new Float64Array([1, 0.5])]
    expect([...shortageByDay(2, new Float64Array([1, 0.5]), prices)]).toEqual([1.5, 0.125])
  })

  it('refuses prices of another length, and too few of them', () => {
    expect(() => shortageByDay(1, new Float64Array(3), [new Float64Array(2)])).toThrow('prices need 3 days')
    expect(() => shortageByDay(2, new Float64Array(3), [new Float64Array(3)])).toThrow(
      'prices need 2 newcomers',
    )
  })
})
