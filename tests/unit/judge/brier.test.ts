import fc from 'fast-check'
import { expect, test } from 'vitest'
import { brierOf } from '#lib/judge/brier.ts'
import golden from '../../golden/single-stays.json' with { type: 'json' }
import { GOLDEN_STAYS } from '../../support/golden-stays.ts'

test("as R's pec has it (tests/golden/single_stays.R)", () => {
  golden.at.forEach((day, i) => {
    const told = brierOf(GOLDEN_STAYS, day)
    expect(told.kind === 'scored' && Math.abs(told.score / golden.brier[i]! - 1)).toBeLessThan(1e-9)
  })
})

test('without censoring it is the mean square', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.double({ min: 0.01, max: 0.99, noNaN: true }), fc.nat(9)), { minLength: 1 }),
      fc.nat(9),
      (rows, day) => {
        const stays = rows.map(([q, until]) => ({
          staying: Array.from({ length: 10 }, (_, d) => q ** (d + 1)),
          until,
          isEnded: true,
        }))
        const squares = stays.map(({ staying, until }) => (staying[day]! - Number(until > day)) ** 2)
        const told = brierOf(stays, day)
        expect(told).toEqual({ kind: 'scored', score: expect.any(Number), known: stays.length })
        const mean = squares.reduce((a, b) => a + b, 0) / squares.length
        expect(told.kind === 'scored' && Math.abs(told.score - mean)).toBeLessThan(1e-13)
      },
    ),
  )
})

test('by hand: one of four goes from sight on its first evening', () => {
  const staying = [0.9, 0.6, 0.4]
  const stays = [
    { staying, until: 0, isEnded: true },
    { staying, until: 0, isEnded: false },
    { staying, until: 1, isEnded: true },
    { staying, until: 2, isEnded: true },
  ]
  // Of three still there after day 0 one is lost: G is 1 on day 0 and 2/3 after it.
  expect(brierOf(stays, 0)).toEqual({
    kind: 'scored',
    score: expect.closeTo((0.9 ** 2 + 3 * 0.1 ** 2) / 4, 12),
    known: 4,
  })
  expect(brierOf(stays, 1)).toEqual({
    kind: 'scored',
    score: expect.closeTo((0.6 ** 2 + (0.6 ** 2 + 0.4 ** 2) / (2 / 3)) / 4, 12),
    known: 3,
  })
})

test('says where nobody was followed so far, and refuses a day beyond the predictions', () => {
  const stays = [{ staying: [0.9, 0.8, 0.7], until: 0, isEnded: false }]
  expect(brierOf(stays, 2)).toEqual({ kind: 'nobody followed so far' })
  expect(() => brierOf(stays, 3)).toThrow('day needs a whole number from 0 to below 3, got 3')
  expect(() => brierOf(stays, 0.5)).toThrow('day needs')
})
