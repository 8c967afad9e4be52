import fc from 'fast-check'
import { expect, test } from 'vitest'
import { EXITS, newByExit } from '#lib/domain/housing.ts'
import { stageLaw } from '#lib/forecast/stage-law.ts'
import { passStage, residualExits, residualOf, undatedLaw, walkFrom } from '#lib/forecast/walk.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import { newWork } from '#lib/numerics/work.ts'
import { estimate, length, OVERWINTERING, stage, TODAY } from '../../support/forecasting.ts'

const DAYS = 120

test('an animal in care: what is left of its stage and its endings sum to 1 on every day', () => {
  const age = fc.integer({ min: 0, max: 300 })
  const share = fc.double({ min: 0.01, max: 1, noNaN: true })
  fc.assert(
    fc.property(age, share, fc.boolean(), (days, part, dated) => {
      const some = dated ? OVERWINTERING : estimate()
      const exits = residualExits(some, TODAY - days, days, DAYS, part)
      const { present } = residualOf(some, TODAY - days, days, DAYS, part)
      let gone = 0
      for (let d = 0; d < DAYS; d++) {
        for (const exit of EXITS) gone += exits[exit][d]!
        expect(Math.abs(present[d]! + gone - 1)).toBeLessThan(1e-12)
      }
    }),
    { numRuns: 40 },
  )
})

test('conditioning is on days so far: the ratio of masses to what was left, where no digit is lost', () => {
  const law = stageLaw(estimate(), TODAY, 200)
  const { onward, onwardEver } = residualOf(estimate(), TODAY - 9, 9, 60, 1)
  for (let i = 0; i < 60; i++) {
    expect(onward[i]).toBeCloseTo(law.masses.onward[9 + i]! / law.staying[8]!, 14)
  }
  const onwardFromNine = neumaierSum(law.masses.onward.subarray(9)) + law.tails.onward
  expect(onwardEver).toBeCloseTo(onwardFromNine / law.staying[8]!, 13)
})

test("tonight's hazard is that of the part of the day that is left", () => {
  const whole = residualOf(estimate(), TODAY - 5, 5, 10, 1)
  const quarter = residualOf(estimate(), TODAY - 5, 5, 10, 0.25)
  expect(quarter.present[0]).toBeCloseTo(whole.present[0]! ** 0.25, 14)
  const split = (part: number) => residualExits(estimate(), TODAY - 5, 5, 10, part)
  expect(split(0.25).died[0]! / quarter.onward[0]!).toBeCloseTo(split(1).died[0]! / whole.onward[0]!, 12)
  expect(quarter.present[3]! / quarter.present[0]!).toBeCloseTo(whole.present[3]! / whole.present[0]!, 14)
})

test('a stay far beyond anything the plan expects still has a future of mass 1', () => {
  const brief = estimate({ ready: { kind: 'length', length: length(2, 2.2) } })
  const exits = residualExits(brief, TODAY - 900, 900, 20, 1)
  const { present } = residualOf(brief, TODAY - 900, 900, 20, 1)
  const gone = EXITS.reduce((sum, exit) => sum + neumaierSum(exits[exit]), 0)
  expect(present[19]! + gone).toBeCloseTo(1, 12)
  expect(present.every(Number.isFinite)).toBe(true)
})

test('entries pass a stage day by day as its law says, with a gate by date as without', () => {
  for (const some of [
    estimate(),
    OVERWINTERING,
    estimate({ leastDays: 17 }),
    { ...OVERWINTERING, leastDays: 20 },
  ]) {
    const enters = new Float64Array(150)
    enters[0] = 0.5
    enters[3] = 0.25
    enters[100] = 0.25
    const { present, onward } = passStage(some, enters, TODAY, newWork())
    for (let d = 0; d < 150; d++) {
      let there = 0
      let going = 0
      for (const e of [0, 3, 100]) {
        if (d < e) continue
        const law = stageLaw(some, TODAY + e, 151)
        there += enters[e]! * law.staying[d - e]!
        going += enters[e]! * law.masses.onward[d - e]!
      }
      // A check later than its gate is met at the gate already in both.
      expect(present[d]).toBeCloseTo(there, 13)
      expect(onward[d]).toBeCloseTo(going, 13)
    }
  }
})

test('a required check holds back going onward, and no death', () => {
  const free = stageLaw(estimate(), TODAY, 60)
  const held = stageLaw(estimate({ leastDays: 17 }), TODAY, 60)
  expect(neumaierSum(held.masses.onward, 17)).toBe(0)
  expect(held.masses.onward[17]).toBeCloseTo(neumaierSum(free.masses.onward, 18), 14)
  expect(Array.from(held.masses.died)).toEqual(Array.from(free.masses.died))
})

test('stages follow one another: all who enter are somewhere', () => {
  const shares = newByExit(exit => (exit === 'onward' ? 1 : 0))
  const enters = new Float64Array(DAYS)
  enters[2] = 1
  const walks = walkFrom(
    [stage('a', { shares }), stage('b', { shares }), stage('c', { shares })],
    0,
    enters,
    TODAY,
    newWork(),
  )
  const last = passStage(estimate({ shares }), walks[2]!.enters, TODAY, newWork()).onward
  let released = 0
  for (let d = 0; d < DAYS; d++) {
    released += last[d]!
    const inside = walks.reduce((sum, { present }) => sum + present[d]!, 0)
    expect(inside + released).toBeCloseTo(d < 2 ? 0 : 1, 12)
  }
})

test('a law is made once for an estimate and again only for more days', () => {
  const one = estimate()
  expect(undatedLaw(one, 40)).toBe(undatedLaw(one, 30))
  expect(undatedLaw(one, 400).days).toBeGreaterThan(400)
})
