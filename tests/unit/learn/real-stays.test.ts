/**
 * Learned from real stays, without a plan and with one, against R's own packages (tests/golden/real_stays.py says which
 * data, whose licence, and how the figures were made).
 */
import { describe, expect, test } from 'vitest'
import type { Exit } from '#lib/domain/housing.ts'
import { evidenceOfPlan } from '#lib/learn/evidence.ts'
import { meanLaw } from '#lib/learn/hazards.ts'
import { posteriorOf } from '#lib/learn/posterior.ts'
import { trialsOf } from '#lib/learn/trials.ts'
import mgus2 from '../../golden/mgus2.json' with { type: 'json' }
import golden from '../../golden/real-stays.json' with { type: 'json' }
import { estimate, length, TODAY } from '../../support/forecasting.ts'
import { ended, unseenAfter } from '../../support/learning.ts'

type Set = keyof typeof golden
/** A plan that says nothing of the days that are looked at: where nobody was watched, nobody ends. */
const NEVER = estimate({
  ready: { kind: 'length', length: length(90_000, 91_000) },
  shares: { onward: 1, died: 0, euthanased: 0, left: 0 },
})
const CAUSES = ['onward', 'died', 'left'] as const

function learned(name: Set, days: number, weight: number, plan = estimate()) {
  const stays = golden[name].stays.flatMap(([from, last, exit, count]) => {
    const [first, until] = [Number(from), Number(last)]
    const one = exit === null ? unseenAfter(until + 1, first) : ended(exit as Exit, until, { from: first })
    return new Array<typeof one>(Number(count)).fill(one)
  })
  return meanLaw(posteriorOf(evidenceOfPlan(plan, days), weight, trialsOf(stays, TODAY, days)))
}

const until = (masses: Float64Array, d: number) => masses.slice(0, d + 1).reduce((a, b) => a + b, 0)

test.each(Object.keys(golden) as Set[])('%s without a plan: survival and incidences', name => {
  const { product, published } = golden[name]
  const days = Math.max(...product.map(([d]) => d!)) + 1
  const law = learned(name, days, 1e-15, NEVER)
  for (const [d, survival, ...incidences] of product) {
    expect(Math.abs(law.staying[d!]! - survival!), `day ${d}`).toBeLessThan(1e-12)
    for (const [j, cause] of CAUSES.entries()) {
      expect(Math.abs(until(law.masses[cause], d!) - incidences[j]!), `${cause} ${d}`).toBeLessThan(1e-12)
    }
  }
  // As many digits as were published.
  for (const [of, rows] of Object.entries(published)) {
    for (const [d, value] of rows as number[][]) {
      const ours = of === 'survival' ? law.staying[d!]! : until(law.masses[of as Exit], d!)
      expect(Math.abs(ours - value!), `${of} ${d}`).toBeLessThan(
        value! > 0.3 && name !== 'transplant' ? 1e-10 : 6e-8,
      )
    }
  }
})

test('the median of lung is day 310, as survfit has it', () => {
  const { staying } = learned('lung', 400, 1e-15, NEVER)
  expect(staying.findIndex(still => still <= 0.5)).toBe(310)
})

// Aalen-Johansen: two ways to end of which the rarer one goes on for decades (tests/golden/mgus2.R; R `survival`).
test('mgus2 without a plan: the chances of both endings, as survfit has them', () => {
  const stays = mgus2.stays.flatMap(([month, ending, count]) => {
    const one = ending === 0 ? unseenAfter(month! + 1) : ended(ending === 1 ? 'onward' : 'died', month!)
    return new Array<typeof one>(count!).fill(one)
  })
  expect(stays).toHaveLength(1384)
  const days = 425
  const law = meanLaw(posteriorOf(evidenceOfPlan(NEVER, days), 1e-15, trialsOf(stays, TODAY, days)))
  for (const [month, still, malignant, died] of mgus2.states) {
    expect(Math.abs(law.staying[month!]! - still!), `month ${month}`).toBeLessThan(1e-12)
    expect(Math.abs(until(law.masses.onward, month!) - malignant!), `month ${month}`).toBeLessThan(1e-12)
    expect(Math.abs(until(law.masses.died, month!) - died!), `month ${month}`).toBeLessThan(1e-12)
  }
})

// Few men lived there at the age of 65: the estimate without a plan falls to 0 at month 781, with one at risk.
describe('channing', () => {
  const plan = estimate({
    ready: { kind: 'length', length: length(1200, 1400) },
    died: length(1000, 1150),
    shares: { onward: 0.05, died: 0.95, euthanased: 0, left: 0 },
  })

  test('one death with one at risk does not end all that were watched later', () => {
    const { staying } = learned('channing', 1250, 20, plan)
    expect(staying[781]).toBeGreaterThan(0.8)
    for (let d = 782; d < 1250; d++) {
      expect(staying[d]).toBeGreaterThan(0)
      expect(staying[d]).toBeLessThanOrEqual(staying[d - 1]!)
    }
  })
})
