import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { apportion, billOf } from '#lib/plan/term.ts'

const reason = { kind: 'redirected' } as const
const values = fc.array(fc.double({ min: 0, max: 50, noNaN: true }), { maxLength: 8 })

describe('billOf', () => {
  it('adds up exactly, in full and as shown', () => {
    fc.assert(
      fc.property(values, costs => {
        const bill = billOf(costs.map(value => ({ value, reason })))
        expect(bill.terms.reduce((sum, term) => sum + term.value, 0)).toBe(bill.total)
        const hundredths = bill.terms.reduce((sum, term) => sum + Math.round(term.shown * 100), 0)
        expect(hundredths).toBe(Math.round(bill.totalShown * 100))
        expect(Math.abs(bill.totalShown - bill.total)).toBeLessThanOrEqual(0.005 + 1e-9)
        for (const term of bill.terms) expect(Math.abs(term.shown - term.value)).toBeLessThan(0.01 + 1e-9)
      }),
    )
  })

  it('leaves out what costs nothing', () => {
    expect(billOf([{ value: 0, reason }]).terms).toEqual([])
  })

  it('refuses a cost below nothing or without end', () => {
    expect(() => billOf([{ value: -0.1, reason }])).toThrow('a cost needs')
    expect(() => billOf([{ value: Number.POSITIVE_INFINITY, reason }])).toThrow('a cost needs')
    expect(() => billOf([{ value: Number.NaN, reason }])).toThrow('a cost needs')
  })
})

describe('apportion', () => {
  it('gives the spare part to the largest remainder, the earlier in a tie', () => {
    expect(apportion([0.34, 0.33, 0.33], 10)).toEqual([4, 3, 3])
    expect(apportion([0.25, 0.25], 10)).toEqual([3, 2])
  })
})
