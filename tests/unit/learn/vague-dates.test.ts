import { describe, expect, test } from 'vitest'
import { evidenceOfPlan } from '#lib/learn/evidence.ts'
import { meanHazards, meanLaw, meanStay } from '#lib/learn/hazards.ts'
import { posteriorOf } from '#lib/learn/posterior.ts'
import type { RecordedStay } from '#lib/learn/stay.ts'
import { exitDays, trialsOf } from '#lib/learn/trials.ts'
import { consistentTrials, datedStays, isVague } from '#lib/learn/vague-dates.ts'
import golden from '../../golden/learning.json' with { type: 'json' }
import { estimate, TODAY } from '../../support/forecasting.ts'
import { ended, inCare, unseenAfter } from '../../support/learning.ts'
import { drawStays, planOf, type StageTruth, trueMean } from '../../support/stage-truth.ts'

const VAGUE = golden.vague.stays.map(([from, until]) =>
  until === null ? unseenAfter(Number(from) + 1) : ended('onward', Number(until), { earliest: Number(from) }),
)

test('an end between two dates is vague; one day, one still in care, and one cut by import to a day are not', () => {
  expect(isVague(ended('died', 5, { earliest: 3 }), TODAY)).toBe(true)
  expect(isVague(ended('died', 5), TODAY)).toBe(false)
  expect(isVague(inCare(5), TODAY)).toBe(false)
  expect(isVague(ended('died', 5, { earliest: 3, from: 5 }), TODAY)).toBe(false)
})

// The likelihood maximised directly by scipy.optimize (tests/golden/learning.py).
test('without weight on the plan: the survival that makes the records likeliest', () => {
  const prior = evidenceOfPlan(estimate(), 8)
  const { staying } = meanLaw(posteriorOf(prior, 0, consistentTrials(VAGUE, TODAY, prior, 0)))
  const mass = (from: number, until: number) => (from === 0 ? 1 : staying[from - 1]!) - staying[until]!
  const logLikelihood = golden.vague.stays.reduce(
    (sum, [from, until]) => sum + Math.log(until === null ? staying[from!]! : mass(from!, until!)),
    0,
  )
  expect(logLikelihood).toBeCloseTo(golden.vague.logLikelihood, 6)
  for (const [d, survival] of golden.vague.survival.entries()) {
    expect(Math.abs(staying[d]! - survival), `day ${d}`).toBeLessThan(1e-4)
  }
})

test('the answer agrees with itself: spreading by it once more changes nothing', () => {
  const prior = evidenceOfPlan(estimate(), 30)
  const trials = consistentTrials(VAGUE, TODAY, prior, 5)
  const again = trialsOf(VAGUE, TODAY, 30, meanHazards(posteriorOf(prior, 5, trials)))
  for (let d = 0; d < 30; d++) expect(again.onward[d]).toBeCloseTo(trials.onward[d]!, 5)
})

test('known dates are counted as they are', () => {
  const stays = [ended('onward', 4), ended('died', 2), inCare(7)]
  expect(consistentTrials(stays, TODAY, evidenceOfPlan(estimate(), 20), 20)).toEqual(
    trialsOf(stays, TODAY, 20),
  )
})

describe('dates lost to within a week', () => {
  const TRUTH: StageTruth = { early: 0.15, death: [3, 0.9], ready: [10, 0.5] }
  const blurred = (stay: RecordedStay): RecordedStay => {
    if (stay.end?.kind !== 'exit') return stay
    // Found ended at the end of a week of the calendar, seen last at its beginning.
    const week = Math.floor(stay.end.on / 7) * 7
    return { ...stay, end: { ...stay.end, on: week + 6, notBefore: Math.max(stay.enteredOn, week) } }
  }

  test('still give the mean stay, where taking the day of finding does not', () => {
    const stays = drawStays(TRUTH, 150, 11).map((stay, i) => blurred({ ...stay, ...shifted(stay, i % 7) }))
    const prior = evidenceOfPlan(planOf(TRUTH, 1.3), 110)
    const mean = (trials: ReturnType<typeof trialsOf>) => meanStay(meanLaw(posteriorOf(prior, 5, trials)))
    const found = stays.map(stay =>
      stay.end?.kind === 'exit' ? { ...stay, end: { ...stay.end, notBefore: stay.end.on } } : stay,
    )
    expect(Math.abs(mean(consistentTrials(stays, TODAY, prior, 5)) / trueMean(TRUTH) - 1)).toBeLessThan(0.08)
    expect(mean(trialsOf(found, TODAY, 110)) / trueMean(TRUTH) - 1).toBeGreaterThan(0.2)
  })

  /** The same stay begun some days later, so that weeks of the calendar fall on all its days. */
  function shifted(stay: RecordedStay, days: number): Pick<RecordedStay, 'enteredOn' | 'end'> {
    const end = stay.end === null ? null : { ...stay.end, on: stay.end.on + days }
    return { enteredOn: stay.enteredOn + days, end }
  }
})

describe('a dated draw', () => {
  const hazards = meanHazards(evidenceOfPlan(estimate(), 40))

  test('puts each vague end on one of its days as often as its chance says, and leaves the others', () => {
    const vague = { ...ended('onward', 9, { earliest: 5 }), key: 'vague' }
    const chances = exitDays(vague, TODAY, hazards)?.chances ?? []
    const DRAWS = 3000
    const seen = chances.map(() => 0)
    for (let draw = 0; draw < DRAWS; draw++) {
      const [dated] = datedStays([vague], TODAY, hazards, 'law', draw)
      if (dated?.end?.kind === 'exit') seen[dated.end.on - vague.enteredOn - 5]!++
    }
    expect(seen.reduce((a, b) => a + b)).toBe(DRAWS)
    for (const [i, chance] of chances.entries()) {
      expect(Math.abs(seen[i]! - DRAWS * chance)).toBeLessThan(4.5 * Math.sqrt(DRAWS * chance * (1 - chance)))
    }
    const others = [ended('died', 3), inCare(4), unseenAfter(2)]
    expect(datedStays(others, TODAY, hazards, 'law', 1)).toEqual(others)
  })

  test('is the same whatever other stays there are', () => {
    const vague = { ...ended('onward', 30, { earliest: 5 }), key: 'vague' }
    const alone = datedStays([vague], TODAY, hazards, 'law', 7)
    expect(datedStays([{ ...vague, key: 'other' }, vague], TODAY, hazards, 'law', 7)[1]).toEqual(alone[0])
    expect(datedStays([vague], TODAY, hazards, 'law', 8)).not.toEqual(alone)
  })
})
