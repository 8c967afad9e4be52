import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { EXITS, newByExit } from '#lib/domain/housing.ts'
import { gateDelay, lengthTails, stageLaw } from '#lib/forecast/stage-law.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { estimate, length, OVERWINTERING, TODAY } from '../../support/forecasting.ts'

test('masses and tails sum to 1 within 1e-12, whatever the estimate, and survival is what is left', () => {
  const share = fc.double({ min: 0.01, max: 1, noNaN: true })
  const some = fc.record({
    weights: fc.tuple(share, share, share, share),
    median: fc.double({ min: 0.3, max: 60, noNaN: true }),
    spread: fc.double({ min: 1.1, max: 8, noNaN: true }),
    days: fc.integer({ min: 1, max: 200 }),
    dated: fc.boolean(),
  })
  fc.assert(
    fc.property(some, ({ weights, median, spread, days, dated }) => {
      const total = neumaierSum(weights)
      const shares = newByExit(exit => weights[EXITS.indexOf(exit)]! / total)
      const ready = dated
        ? OVERWINTERING.ready
        : { kind: 'length' as const, length: length(median, median * spread) }
      const law = stageLaw(estimate({ shares, ready }), TODAY, days)
      const all = EXITS.map(exit => neumaierSum(law.masses[exit]) + law.tails[exit])
      expect(Math.abs(neumaierSum(all) - 1)).toBeLessThan(1e-12)
      const left = EXITS.map(exit => law.tails[exit])
      expect(law.staying[days - 1]).toBeCloseTo(neumaierSum(left), 12)
      for (const exit of EXITS)
        for (const mass of law.masses[exit]) expect(mass).toBeGreaterThanOrEqual(-1e-16)
    }),
  )
})

test('each ending keeps its own length and share', () => {
  const law = stageLaw(estimate(), TODAY, 400)
  const within = (exit: 'onward' | 'died', days: number) => neumaierSum(law.masses[exit], days)
  expect(within('died', 400) + law.tails.died).toBeCloseTo(0.1, 13)
  expect(within('onward', 13) / 0.8).toBeCloseTo(1 - lengthTails(length(12, 30), 20)[12]!, 13)
})

test('an autumn hedgehog leaves in spring, with the lag of the plan', () => {
  const entry = dayOfDate('2026-11-25')
  const law = stageLaw(OVERWINTERING, entry, 250)
  const opens = dayOfDate('2027-03-20') - entry
  expect(neumaierSum(law.masses.onward, opens)).toBe(0)
  // Half of those who are released have gone 13 days after the gate opened, give or take the phase of the day.
  const half = neumaierSum(law.masses.onward, opens + 13) / 0.8
  expect(half).toBeGreaterThan(0.45)
  expect(half).toBeLessThan(0.5)
  expect(neumaierSum(law.masses.died, opens)).toBeGreaterThan(0.08)
})

test('a gate: before, in and after its season, and over New Year', () => {
  const gate = {
    kind: 'date gate' as const,
    opens: '03-20',
    closes: '05-31',
    minDays: 10,
    lag: length(13, 35),
  }
  const delayOn = (date: string, change: Partial<typeof gate> | { closes: null } = {}) =>
    gateDelay({ ...gate, ...change }, dayOfDate(date))
  expect(delayOn('2026-11-25')).toBe(115)
  expect(delayOn('2027-04-02')).toBe(10)
  expect(delayOn('2027-05-21')).toBe(10)
  expect(delayOn('2027-05-22')).toBe(dayOfDate('2028-03-20') - dayOfDate('2027-05-22'))
  expect(delayOn('2027-08-01', { closes: null })).toBe(10)
  expect(delayOn('2027-01-10', { opens: '11-01', closes: '02-15' })).toBe(10)
  expect(delayOn('2027-03-01', { opens: '11-01', closes: '02-15' })).toBe(245)
  expect(delayOn('2027-01-01', { opens: '02-29', minDays: 0 })).toBe(59)
})

test('refuses shares that do not sum to 1, and negative ones', () => {
  const shares = { onward: 0.9, died: 0.2, euthanased: 0, left: 0 }
  expect(() => stageLaw(estimate({ shares }), TODAY, 5)).toThrow('shares need a sum of 1')
  const negative = { onward: 1.1, died: -0.1, euthanased: 0, left: 0 }
  expect(() => stageLaw(estimate({ shares: negative }), TODAY, 5)).toThrow(
    'share of died needs a number of at least 0',
  )
})

test('a length table serves longer questions too', () => {
  const short = lengthTails(length(9, 20), 3)
  const long = lengthTails(length(9, 20), 700)
  expect(long.length).toBeGreaterThanOrEqual(700)
  for (let k = 0; k < 3; k++) expect(long[k]).toBe(short[k])
})
