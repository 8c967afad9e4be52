import { describe, expect, test } from 'vitest'
import { EXITS } from '#lib/domain/housing.ts'
import { VET_WEIGHT } from '#lib/domain/vet-word.ts'
import { forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import { hazardsOfLaw } from '#lib/forecast/hazards.ts'
import { heededEstimate } from '#lib/forecast/heeded-estimate.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import { findPassedBy, occupancyOf } from '#lib/forecast/occupancy.ts'
import { gateDelayOf, stageLaw } from '#lib/forecast/stage-law.ts'
import { medianLeft } from '#lib/forecast/vet-word.ts'
import { withWay } from '#lib/forecast/what-if.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import {
  estimate,
  input,
  itinerary,
  length,
  OVERWINTERING,
  pool,
  stage,
  stream,
  TODAY,
} from '#tests/support/forecasting.ts'
import { learnedAsPlanned, learnedOf } from '#tests/support/learned.ts'

const AGE = 9
const LONG = estimate({ ready: { kind: 'length', length: length(28, 60) } })
const learned = {
  ...LONG,
  learned: learnedOf({ died: Array(400).fill(0.004), passes: Array(400).fill(0.03) }),
}
const enteredOn = TODAY - AGE
const SPRING = {
  kind: 'date gate',
  opens: '03-20',
  closes: '05-31',
  minDays: 10,
  lag: length(13, 35),
} as const

/** What is known of the time left until an animal of that age may go on, were nothing else to end its stage. */
function medianOf(of: StageEstimate, age = AGE): number {
  const { leastDays: _booked, ...free } = of
  const opens = gateDelayOf(free, enteredOn)
  const known = of.learned ?? hazardsOfLaw(stageLaw(free, enteredOn, 1536 + opens), opens)
  return medianLeft(known, age, opens)
}

const KINDS: readonly (readonly [string, StageEstimate])[] = [
  ['a plan', LONG],
  ['what was learned', learned],
  ['a plan that waits for a check', { ...LONG, leastDays: 25 }],
  ['what was learned, with a check', { ...learned, leastDays: 25 }],
  ['a date gate', OVERWINTERING],
  ['a date gate that was learned of', learnedAsPlanned(OVERWINTERING, 600, enteredOn)],
]

describe.each(KINDS)('%s', (_, known) => {
  const days = 200

  test('a word that says what is known changes nothing', () => {
    const same = heededEstimate(known, { age: AGE, inDays: medianOf(known) }, enteredOn)
    const [before, after] = [stageLaw(known, enteredOn, days), stageLaw(same, enteredOn, days)]
    for (const exit of EXITS) {
      for (let d = 0; d < days; d++)
        expect(Math.abs(after.masses[exit][d]! - before.masses[exit][d]!)).toBeLessThan(1e-9)
      expect(Math.abs(after.tails[exit] - before.tails[exit])).toBeLessThan(1e-9)
    }
  })

  // By the law's own statement: m^(1-w) v^w, within a fraction of its day.
  test('the median moves by the weight, and everything still sums to 1', () => {
    const before = medianOf(known)
    const inDays = Math.round(before * 2)
    const heard = heededEstimate(known, { age: AGE, inDays }, enteredOn)
    const opens = gateDelayOf(known, enteredOn)
    const wait = Math.max(0, opens - AGE)
    const expected = wait + (inDays - wait) ** VET_WEIGHT * (before - wait) ** (1 - VET_WEIGHT)
    expect(Math.abs(medianLeft(heard.learned!, AGE, opens) - expected)).toBeLessThan(0.1)
    const law = stageLaw(heard, enteredOn, days)
    const all = EXITS.map(exit => neumaierSum(law.masses[exit]) + law.tails[exit])
    expect(Math.abs(neumaierSum(all) - 1)).toBeLessThan(1e-12)
    const bar = Math.max(opens, known.leastDays ?? 0)
    for (let d = 0; d < bar; d++) expect(law.masses.onward[d]).toBe(0)
  })
})

// The plan counts the lag of a date gate from the check, so the gate that is as late says the same.
test('a check on a date gate stays where the plan has it', () => {
  const later: StageEstimate = { ...OVERWINTERING, ready: { ...SPRING, minDays: 140 } }
  const law = stageLaw({ ...OVERWINTERING, leastDays: 140 }, enteredOn, 400)
  const word = { age: AGE, inDays: medianOf(later) }
  const same = stageLaw(heededEstimate({ ...OVERWINTERING, leastDays: 140 }, word, enteredOn), enteredOn, 400)
  for (let d = 0; d < 400; d++) {
    expect(Math.abs(same.masses.onward[d]! - law.masses.onward[d]!)).toBeLessThan(1e-9)
    expect(Math.abs(same.staying[d]! - law.staying[d]!)).toBeLessThan(1e-9)
  }
})

test('the same word about the same stage is one law, however often it is read', () => {
  const read = (of: StageEstimate) => heededEstimate(structuredClone(of), { age: AGE, inDays: 14 }, enteredOn)
  expect(read(LONG).learned).toBe(read(LONG).learned)
  const other = { ...LONG, died: length(5, 16) }
  expect(read(other).learned!.died).not.toEqual(read(LONG).learned!.died)
  const later = heededEstimate(OVERWINTERING, { age: AGE, inDays: 140 }, enteredOn + 100)
  expect(later.learned).not.toEqual(
    heededEstimate(OVERWINTERING, { age: AGE, inDays: 140 }, enteredOn).learned,
  )
})

test('said before it entered, it counts from the day it was said', () => {
  const early = heededEstimate(learned, { age: -4, inDays: 14 }, enteredOn)
  expect(early).toEqual(heededEstimate(learned, { age: 0, inDays: 10 }, enteredOn))
  const past = heededEstimate(learned, { age: -20, inDays: 14 }, enteredOn)
  expect(past).toEqual(heededEstimate(learned, { age: 0, inDays: 0.5 }, enteredOn))
  expect(past.learned!.passes[0]).toBeGreaterThan(early.learned!.passes[0]!)
})

test('what was learned stays as it was, and each word has hazards of its own name', () => {
  const before = [...learned.learned.passes]
  const one = heededEstimate(learned, { age: AGE, inDays: 14 }, enteredOn)
  const other = heededEstimate(learned, { age: AGE, inDays: 15 }, enteredOn)
  expect([...learned.learned.passes]).toEqual(before)
  expect(one.learned!.run).toBe(learned.learned.run)
  expect(new Set([one, other, learned].map(({ learned: of }) => of!.key)).size).toBe(3)
})

describe('in a forecast', () => {
  const DAYS = 60
  const pools = [pool('cage', [2, 1], DAYS), pool('flight', [1], DAYS)]
  const AFTER = { stage: 'limited activity', ready: { kind: 'length', length: length(20, 30) } } as const
  const path = (of: StageEstimate) => [{ ...stage('cage'), estimate: of }, stage('flight', AFTER)]
  const way = (id: string, of: StageEstimate) => itinerary(id, path(of), { enteredStageOn: enteredOn })
  const base = {
    horizonDays: DAYS,
    pools,
    itineraries: ['a', 'b', 'c'].map(id => way(id, LONG)),
    arrivals: [stream('s', path(LONG), 0.05, DAYS)],
  }
  const heard = way('b', heededEstimate(LONG, { age: AGE, inDays: 45 }, enteredOn))
  const made = forecast(input(base))

  test('a what-if with a word equals a rebuild with it', () => {
    const after = withWay(made, heard)
    const itineraries = base.itineraries.map(one => (one.casualtyId === 'b' ? heard : one))
    const built = forecast(input({ ...base, itineraries }))
    for (const { id } of pools) {
      const [a, b] = [poolForecast(getDemand(after, id)), poolForecast(getDemand(built, id))]
      a.expectedShortByDay.forEach((short, d) => {
        expect(short).toBeCloseTo(b.expectedShortByDay[d]!, 10)
      })
    }
    const short = (of: typeof made) => poolForecast(getDemand(of, 'cage')).expectedShortByDay[40]!
    expect(short(after)).toBeGreaterThan(short(made))
  })

  test('the likely day moves with it, the chance to live does not rise by waiting longer', () => {
    const clock = { today: TODAY, horizonDays: DAYS, shareOfTodayLeft: 1 }
    const [before, after] = [way('b', LONG), heard].map(one => occupancyOf(one, clock).stages[0]!)
    expect(findPassedBy(after!, 0.5)!).toBeGreaterThan(findPassedBy(before!, 0.5)! + 10)
    expect(after!.onwardProbability).toBeLessThan(before!.onwardProbability + 1e-12)
  })
})
