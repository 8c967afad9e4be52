import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { NAIVES, type Naive, naivePoint, naiveSpread } from '#lib/judge/naive.ts'

const history = (counts: readonly number[]) => ({ from: 20_000, counts })
const wave = (days: number) =>
  history(
    Array.from({ length: days }, (_, i) => Math.round(20 + 12 * Math.sin((2 * Math.PI * i) / 364) + (i % 5))),
  )
const pmfOf = (told: ReturnType<typeof naivePoint>) => {
  if (told.kind !== 'told') throw new Error(`too short: ${told.hasDays} of ${told.needsDays}`)
  return Array.from(told.pmf)
}
const sure = (told: ReturnType<typeof naivePoint>) => pmfOf(told).indexOf(1)

/** The guess by its definition, day by day, from days up to `origin` only; null where a day is missing. */
function slowGuess(naive: Naive, counts: readonly number[], origin: number, horizon: number): number | null {
  if (naive === 'same as today') return counts[origin]!
  const half = naive === 'same week last year' ? 3 : 14
  const years: number[] = []
  for (let year = 1; year <= (half === 3 ? 1 : 99); year++) {
    const days = Array.from({ length: 2 * half + 1 }, (_, i) => origin + horizon - 364 * year - half + i)
    if (days.some(day => day < 0 || day > origin)) break
    years.push(...days.map(day => counts[day]!))
  }
  const needed = half === 3 ? 7 : 2 * 29
  return years.length < needed ? null : years.reduce((a, b) => a + b, 0) / years.length
}

describe.each(NAIVES)('%s', naive => {
  test.each([1, 7, 28, 90])('%i days ahead: point and spread by their definitions', horizon => {
    const { counts } = wave(1300)
    const last = counts.length - 1
    const said = slowGuess(naive, counts, last, horizon)!
    expect(sure(naivePoint(naive, history(counts), horizon))).toBe(Math.round(said))
    const values: number[] = []
    for (let origin = 0; origin + horizon <= last; origin++) {
      const guess = slowGuess(naive, counts, origin, horizon)
      if (guess !== null) values.push(Math.max(0, Math.round(said + counts[origin + horizon]! - guess)))
    }
    const pmf = pmfOf(naiveSpread(naive, history(counts), horizon))
    expect(pmf.length).toBe(Math.max(...values) + 1)
    for (const [count, p] of pmf.entries())
      expect(Math.abs(p - values.filter(value => value === count).length / values.length)).toBeLessThan(1e-12)
  })

  test.each([1, 7, 28, 90])('%i days ahead: what it needs is what it lacks, to the day', horizon => {
    for (const forecast of [naivePoint, naiveSpread]) {
      const told = forecast(naive, history([]), horizon)
      if (told.kind !== 'too short') throw new Error('told from nothing')
      expect(told.hasDays).toBe(0)
      expect(forecast(naive, wave(told.needsDays), horizon).kind).toBe('told')
      expect(forecast(naive, wave(told.needsDays - 1), horizon)).toEqual({
        kind: 'too short',
        hasDays: told.needsDays - 1,
        needsDays: told.needsDays,
      })
    }
  })
})

test('of a count that never changes all are sure of it', () => {
  for (const naive of NAIVES) {
    const pmf = pmfOf(naiveSpread(naive, history(new Array(1600).fill(7)), 28))
    expect(pmf).toEqual([0, 0, 0, 0, 0, 0, 0, 1])
  }
})

test('what would fall below nothing counts as nothing', () => {
  fc.assert(
    fc.property(fc.array(fc.nat(9), { minLength: 40, maxLength: 80 }), counts => {
      const pmf = pmfOf(naiveSpread('same as today', history(counts), 3))
      expect(Math.abs(pmf.reduce((a, b) => a + b, 0) - 1)).toBeLessThan(1e-12)
      expect(Math.min(...pmf)).toBeGreaterThanOrEqual(0)
    }),
  )
})

test('refuses a horizon that is none', () => {
  expect(() => naivePoint('same as today', history([1]), 0)).toThrow(
    'horizon needs whole days from 1 to 300, got 0',
  )
  expect(() => naiveSpread('seasonal mean', history([1]), 301)).toThrow('horizon needs')
})
