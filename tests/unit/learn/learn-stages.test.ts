import { expect, test } from 'vitest'
import { gateDelayOf, stageLaw } from '#lib/forecast/stage-law.ts'
import { meanLaw, meanStay } from '#lib/learn/hazards.ts'
import { learnStages, type StageRecords } from '#lib/learn/learn-stages.ts'
import { estimate, OVERWINTERING, TODAY } from '../../support/forecasting.ts'
import { ended, inCare } from '../../support/learning.ts'
import { drawStays, planOf, type StageTruth, trueMean } from '../../support/stage-truth.ts'

const TRUTH: StageTruth = { early: 0.15, death: [3, 0.9], ready: [12, 0.5] }
const DAYS = 110
const cell = (key: string, stays: StageRecords['stays'], stretch = 1 / 1.4): StageRecords => ({
  key,
  stage: 'restricted activity',
  condition: 'fracture',
  estimate: planOf(TRUTH, stretch),
  stays,
  days: DAYS,
})

test('"1.4 times the plan, from 40 animals": each cell says its own, and its dates lean by a third on the plan', () => {
  const [learned] = learnStages([cell('a', [...drawStays(TRUTH, 40, 3), inCare(0)])], TODAY)
  expect(learned?.animals).toBe(40)
  expect(learned?.centred.stretch.low).toBeLessThan(1.4)
  expect(learned?.centred.stretch.high).toBeGreaterThan(1.3)
  expect(learned?.lean).toBeGreaterThan(0.25)
  expect(learned?.lean).toBeLessThan(0.45)
  expect(Math.abs(meanStay(meanLaw(learned!.posterior)) / trueMean(TRUTH) - 1)).toBeLessThan(0.25)
})

test('a cell without records moves with its kind, keeps its own plan, and leans on it wholly', () => {
  const long = cell('long', [], 3)
  const rich = [0, 1, 2].map(i => cell(`rich ${i}`, drawStays(TRUTH, 60, i)))
  const [alone] = learnStages([long], TODAY)
  const among = learnStages([long, ...rich], TODAY).find(({ key }) => key === 'long')
  expect(among?.lean).toBeCloseTo(1, 12)
  expect(among!.centred.stretch.mean).toBeGreaterThan(1.1 * alone!.centred.stretch.mean)
})

test('a record without a date is learned from, and order does not matter', () => {
  const stays = [
    ...drawStays(TRUTH, 10, 1),
    { ...ended('onward', 20, { earliest: 8 }), key: 'vague' },
    inCare(6),
  ]
  const cells = [cell('a', stays), cell('b', drawStays(TRUTH, 5, 2))]
  const one = learnStages(cells, TODAY)
  const other = learnStages([...cells].reverse(), TODAY).reverse()
  expect(other.map(({ key }) => key)).toEqual(['a', 'b'])
  expect(meanStay(meanLaw(other[0]!.posterior))).toBeCloseTo(meanStay(meanLaw(one[0]!.posterior)), 8)
  expect(one[0]?.records.onward.some(count => count > 0 && count < 1)).toBe(true)
})

test('a stage that ends by the calendar learns its lag, and still waits for its date', () => {
  const opens = gateDelayOf(OVERWINTERING, TODAY)
  const stays = Array.from({ length: 60 }, (_, i) => {
    const stay = ended('onward', opens + 25 + (i % 11))
    return { ...stay, key: `${i}`, gate: { opens: stay.enteredOn + opens } }
  })
  const [learned] = learnStages([{ ...cell('winter', stays), estimate: OVERWINTERING, days: 300 }], TODAY)
  const law = meanLaw(learned!.posterior, opens)
  const plan = stageLaw(OVERWINTERING, TODAY, 300)
  expect(learned!.centred.stretch.low).toBeGreaterThan(1.5)
  expect(law.staying[opens - 1]).toBeGreaterThan(plan.staying[opens - 1]!)
  for (let d = 0; d < opens; d++) expect(law.masses.onward[d]).toBe(0)
  const median = (staying: Float64Array) => staying.findIndex(still => still < 0.5)
  expect(median(law.staying) - opens).toBeGreaterThanOrEqual(28)
  expect(median(law.staying) - opens).toBeLessThanOrEqual(33)
})

test('unlike plans are told apart: the mild one stays shorter than the severe one', () => {
  const mild = { ...cell('mild', drawStays(TRUTH, 8, 4)), estimate: estimate() }
  const severe = cell('severe', [], 4)
  const [first, second] = learnStages([mild, severe], TODAY)
  expect(meanStay(meanLaw(first!.posterior))).toBeLessThan(meanStay(meanLaw(second!.posterior)))
})

test('cells of unlike lengths are learned together, each over days of its own', () => {
  const alone = cell('short', drawStays(TRUTH, 20, 6))
  const wide = { ...cell('long', drawStays(TRUTH, 20, 7)), days: 4 * DAYS }
  const [short, long] = learnStages([alone, wide], TODAY)
  expect(short?.posterior.days).toBe(DAYS)
  expect(long?.posterior.days).toBe(4 * DAYS)
  const [same] = learnStages([{ ...alone, days: 4 * DAYS }, wide], TODAY)
  expect(meanStay(meanLaw(same!.posterior))).toBeCloseTo(meanStay(meanLaw(short!.posterior)), 3)
})
