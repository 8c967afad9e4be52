import { describe, expect, test } from 'vitest'
import { type CarePlan, type PlanGate, releasedShare } from '#lib/domain/care-plan.ts'
import { leastDaysIn } from '#lib/domain/care-plan-check.ts'
import { type CombinedPlan, combinePlans } from '#lib/domain/care-plan-combination.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const { plans } = referenceTrade()
const plan = (id: string): CarePlan => {
  const found = plans.find(one => one.id === id)
  if (found === undefined) throw new Error(`no plan ${id}`)
  return found
}
const coracoid = plan('coracoid-fracture.any-bird.closed.conservative')
const thin = plan('emaciation.any-bird.moderate.none')
const shares = (combined: CombinedPlan) => combined.stages.map(stage => stage.estimate.shares.onward)

describe('two conditions in one animal', () => {
  const both = combinePlans([coracoid, thin])

  // seed/reference/plans.md, "Several conditions".
  test('repeat the check values of the reference', () => {
    expect(both.stages.map(stage => stage.stage)).toEqual([
      'critical care',
      'restricted activity',
      'limited activity',
      'unlimited activity',
    ])
    expect(shares(both)).toEqual([0.7, 0.8, 0.95, 0.93])
    expect(releasedShare(both.stages)).toBeCloseTo(0.4948, 4)
    expect(releasedShare(combinePlans([coracoid]).stages)).toBeCloseTo(0.5685, 4)
    expect(releasedShare(combinePlans([thin]).stages)).toBeCloseTo(0.5729, 4)
  })

  // The same place gives these medians; calibration.csv gives the second as 30.2285.
  test.each([
    [both, 34.8],
    [combinePlans([coracoid]), 30.2],
    [combinePlans([thin]), 18.9],
  ])('take as long as the reference says', (combined, days) => {
    expect(Math.round(medianDays(combined) * 10) / 10).toBe(days)
  })

  test('take the larger median with its own 90th percentile', () => {
    expect(both.stages.map(stage => stage.estimate.ready)).toEqual([
      { kind: 'length', length: { medianDays: 3, p90Days: 7 } },
      { kind: 'length', length: { medianDays: 17.5, p90Days: 23.5 } },
      { kind: 'length', length: { medianDays: 4, p90Days: 8 } },
      { kind: 'length', length: { medianDays: 7, p90Days: 15 } },
    ])
  })

  test('keep the mark of the row each number came from', () => {
    expect(both.stages[1]?.marks).toMatchObject({ lengths: 'R:S9;CP', shares: 'D' })
  })

  test('come out the same in either order', () => {
    expect(combinePlans([thin, coracoid])).toEqual(both)
  })
})

describe('a combination', () => {
  test('of one plan is that plan, waiting for the checks that bar the way', () => {
    expect(combinePlans([thin]).stages.map(stage => stage.estimate)).toEqual(
      thin.stages.map(({ stage, estimate }) => ({ ...estimate, leastDays: leastDaysIn(thin.gates, stage) })),
    )
    expect(combinePlans([thin, thin])).toEqual(combinePlans([thin]))
  })

  test('waits for the later of two plans, by the gates it keeps', () => {
    const restricted = (plans: readonly CarePlan[]) =>
      combinePlans(plans).stages.find(stage => stage.stage === 'restricted activity')?.estimate.leastDays
    expect([restricted([thin]), restricted([coracoid]), restricted([thin, coracoid])]).toEqual([3, 17, 17])
  })

  test('puts critical care into isolation beside a quarantine', () => {
    const gasping = combinePlans([plan('breathing.any-bird.severe.none'), thin])
    expect(gasping.stages.slice(0, 2).map(stage => [stage.stage, stage.housing])).toEqual([
      ['critical care', 'isolation'],
      ['quarantine', 'isolation'],
    ])
  })

  test('keeps pool and flight where one plan swims and the other flies', () => {
    const seabird = plan('storm-blown.seabird.moderate.none')
    const swims = seabird.stages.find(stage => stage.housing === 'pool-pen')
    const flies = combinePlans([seabird, coracoid]).stages.find(stage => stage.stage === swims?.stage)
    expect(flies?.features).toEqual(['pool', 'flight'])
    expect(flies?.housing).toBe('pool-pen')
  })

  test('lets a gate by date stand above a length and wait for both', () => {
    const moult = plan('feather-damage.any-bird.moderate.none')
    const stage = combinePlans([moult, coracoid]).stages.find(one => one.stage === 'limited activity')
    expect(stage?.estimate.ready).toMatchObject({ kind: 'date gate', opens: '07-01', minDays: 28 })
  })

  test('has every gate, a shared one with the earlier date, shorter interval and stricter bar', () => {
    const gate: PlanGate = {
      stage: 'critical care',
      check: 'weigh',
      what: 'weight holds or rises',
      offsetDays: 3,
      intervalDays: 3,
      anchor: 'stage start',
      requiredFor: null,
      who: 'carer',
      mark: 'CP',
      note: null,
    }
    const first = { ...thin, id: 'a', gates: [gate, { ...gate, check: 'blood-lead' }] }
    const second = {
      ...thin,
      id: 'b',
      gates: [
        {
          ...gate,
          offsetDays: 1,
          intervalDays: 5,
          requiredFor: 'next stage',
          who: 'vet',
          mark: 'R:S2',
        } as const,
      ],
    }
    expect(combinePlans([first, second]).gates).toEqual([
      { ...gate, offsetDays: 1, intervalDays: 3, requiredFor: 'next stage', who: 'vet', mark: 'R:S2;CP' },
      { ...gate, check: 'blood-lead' },
    ])
  })

  test('meets two radiographs of one plan as two', () => {
    const wing = plan('wing-fracture.any-bird.closed.conservative')
    const count = (gates: readonly PlanGate[]) =>
      gates.filter(gate => gate.check === 'radiograph' && gate.stage === 'restricted activity').length
    expect(count(combinePlans([wing, coracoid]).gates)).toBe(
      Math.max(count(wing.gates), count(coracoid.gates)),
    )
    expect(count(wing.gates)).toBeGreaterThan(1)
  })

  test('never has better odds than one of its plans', () => {
    const birds = plans.filter(one => one.planGroup === 'any bird')
    for (const a of birds) {
      for (const b of birds) {
        const together = releasedShare(combinePlans([a, b]).stages)
        expect(together).toBeLessThanOrEqual(
          Math.min(releasedShare(a.stages), releasedShare(b.stages)) + 1e-12,
        )
      }
    }
  })
})

/**
 * Median of the days from arrival to release: census days of each stage, P(K > k) the mean of the survival over
 * [k, k + 1], nobody before the first day of a barring check; the middle of a day is interpolated.
 */
function medianDays(combined: CombinedPlan): number {
  let total = [1]
  for (const { stage, estimate } of combined.stages) {
    if (estimate.ready.kind !== 'length') throw new Error('a gate by date has no length')
    const days = censusDays(estimate.ready.length.medianDays, estimate.ready.length.p90Days)
    const least = leastDaysIn(combined.gates, stage)
    const waited = days.map((_, k) =>
      k < least ? 0 : k > least ? (days[k] ?? 0) : days.slice(0, k + 1).reduce((a, b) => a + b, 0),
    )
    const sum = Array.from({ length: 300 }, () => 0)
    total.forEach((p, i) => {
      waited.forEach((q, j) => {
        if (i + j < sum.length) sum[i + j] = (sum[i + j] ?? 0) + p * q
      })
    })
    total = sum
  }
  let below = 0
  for (const [day, p] of total.entries()) {
    if (below + p >= 0.5) return day - 0.5 + (0.5 - below) / p
    below += p
  }
  throw new Error('the median lies beyond the days looked at')
}

function censusDays(medianDays: number, p90Days: number): number[] {
  const sigma = Math.log(p90Days / medianDays) / 1.2815515655446004
  const survival = (x: number) => 1 - normalCdf(Math.log(x / medianDays) / sigma)
  const over = Array.from({ length: 301 }, (_, k) => {
    const parts = Array.from({ length: 40 }, (_part, i) => survival(k + (i + 0.5) / 40))
    return parts.reduce((a, b) => a + b, 0) / parts.length
  })
  return over.slice(0, 300).map((p, k) => (k === 0 ? 1 : (over[k - 1] ?? 0)) - p)
}

/** Abramowitz and Stegun 26.2.17 (from memory), absolute error below 7.5e-8. */
function normalCdf(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z))
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  return z >= 0 ? 1 - tail : tail
}
