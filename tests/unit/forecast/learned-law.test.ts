import fc from 'fast-check'
import { expect, test } from 'vitest'
import { EXITS } from '#lib/domain/housing.ts'
import { learnedLaw, learnedOnward, passLearnedGate } from '#lib/forecast/learned-law.ts'
import { stageLaw } from '#lib/forecast/stage-law.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { newWork } from '#lib/numerics/work.ts'
import { estimate } from '../../support/forecasting.ts'
import { hazardsOf, learnedOf } from '../../support/learned.ts'

const chances = (most: number) =>
  fc.array(fc.double({ min: 0, max: most, noNaN: true }), { minLength: 1, maxLength: 12 })
const learnedStage = fc
  .record({ died: chances(0.3), euthanased: chances(0.3), left: chances(0.3), passes: chances(0.9) })
  .map(of => learnedOf(of, { beyond: { onward: 0.4, died: 0.3, euthanased: 0.2, left: 0.1 } }))

/** Every way one animal can go, a day at a time: unfit, or fit and waiting for its check; no arithmetic shared with the law. */
function followed(
  learned: ReturnType<typeof learnedOf>,
  { opens, leastDays }: { opens: number; leastDays: number },
  days: number,
) {
  const at = (chance: Float64Array, d: number) => chance[Math.min(d, learned.days - 1)]!
  const ends = EXITS.map(() => new Float64Array(days))
  const there = new Float64Array(days)
  let [unfit, fit] = [1, 0]
  for (let d = 0; d < days; d++) {
    const before = unfit
    if (d >= learned.days && d >= opens) {
      const three = at(learned.died, d) + at(learned.euthanased, d) + at(learned.left, d)
      unfit *= (1 - three) * (1 - at(learned.passes, d - opens))
      for (const [i, exit] of EXITS.entries()) {
        if (exit !== 'onward') ends[i]![d] = (before - unfit) * learned.beyond[exit]
      }
      fit += (before - unfit) * learned.beyond.onward
    } else {
      for (const [i, exit] of EXITS.entries()) {
        if (exit === 'onward') continue
        ends[i]![d] = before * at(learned[exit], d)
        unfit -= ends[i]![d]!
      }
      const nowFit = d < opens ? 0 : unfit * at(learned.passes, d - opens)
      unfit -= nowFit
      fit += nowFit
    }
    if (d >= leastDays) {
      ends[0]![d] = fit
      fit = 0
    }
    there[d] = unfit + fit
  }
  return { ends, there }
}

test('the law is what following one animal day by day gives, gate, check and days past the learned ones', () => {
  const gates = fc.record({ opens: fc.nat(15), leastDays: fc.nat(20) })
  fc.assert(
    fc.property(learnedStage, gates, fc.integer({ min: 1, max: 30 }), (learned, gate, days) => {
      const law = learnedLaw(learned, gate, days)
      const { ends, there } = followed(learned, gate, days)
      for (const [i, exit] of EXITS.entries())
        for (let d = 0; d < days; d++)
          expect(Math.abs(law.masses[exit][d]! - ends[i]![d]!)).toBeLessThan(1e-13)
      for (let d = 0; d < days; d++) expect(Math.abs(law.staying[d]! - there[d]!)).toBeLessThan(1e-13)
      const all = EXITS.map(exit => neumaierSum(law.masses[exit]) + law.tails[exit])
      expect(Math.abs(neumaierSum(all) - 1)).toBeLessThan(1e-12)
    }),
  )
})

test('what has not ended by the last learned day goes by what was learned of the rest, however few days are asked for', () => {
  const learned = learnedOf(
    { died: [0.1, 0.1], passes: [0.5, 0.5] },
    { beyond: { onward: 0.25, died: 0.75, euthanased: 0, left: 0 } },
  )
  const left = (0.9 * 0.5) ** 2
  const died = 0.1 + 0.45 * 0.1 + left * 0.75
  for (const days of [0, 1, 2]) {
    const law = learnedLaw(learned, { opens: 0, leastDays: 0 }, days)
    expect(neumaierSum(law.masses.died) + law.tails.died).toBeCloseTo(died, 14)
  }
  expect(learnedOnward(learned, 0)).toBeCloseTo(1 - died, 14)
  // Shut for both learned days: all who are left then go as the rest.
  expect(learnedOnward(learned, 2)).toBeCloseTo(0.81 * 0.25, 14)
})

test("a plan's own chances, learned, are the plan's law to the last digits", () => {
  const plan = estimate()
  const learned = hazardsOf(stageLaw(plan, 0, 400))
  for (const leastDays of [0, 17]) {
    const law = learnedLaw(learned, { opens: 0, leastDays }, 200)
    const asked = stageLaw({ ...plan, leastDays }, 0, 200)
    for (const exit of EXITS) {
      expect(Math.abs(law.tails[exit] - asked.tails[exit])).toBeLessThan(1e-12)
      for (let d = 0; d < 200; d++)
        expect(Math.abs(law.masses[exit][d]! - asked.masses[exit][d]!)).toBeLessThan(1e-12)
    }
  }
})

test('entries of many days through one gate are each carried by their own law', () => {
  const days = 40
  const some = fc.record({
    learned: learnedStage,
    enters: fc.array(fc.double({ min: 0, max: 0.1, noNaN: true }), { minLength: days, maxLength: days }),
    opening: fc.nat(50),
    least: fc.nat(8),
    leastDays: fc.nat(15),
  })
  fc.assert(
    fc.property(some, ({ learned, enters, opening, least, leastDays }) => {
      const opensAfter = (e: number) => Math.max(least, opening - e)
      const gate = { least, leastDays, opensAfter }
      const { present, ends } = passLearnedGate(learned, Float64Array.from(enters), gate, EXITS, newWork())
      const laws = enters.map((_, e) => learnedLaw(learned, { opens: opensAfter(e), leastDays }, days))
      const summed = (of: (e: number, k: number) => number, d: number) =>
        neumaierSum(enters.slice(0, d + 1).map((weight, e) => weight * of(e, d - e)))
      for (let d = 0; d < days; d++) {
        expect(present[d]).toBeCloseTo(
          summed((e, k) => laws[e]!.staying[k]!, d),
          12,
        )
        for (const exit of EXITS)
          expect(ends[exit][d]).toBeCloseTo(
            summed((e, k) => laws[e]!.masses[exit][k]!, d),
            12,
          )
      }
    }),
    { numRuns: 60 },
  )
})
