import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { outlookOf } from '#lib/plan/outlook.ts'
import { barsForGood } from '#lib/plan/rule.ts'
import { cheapestPaths, roadBetween, stageCost, stayReasons, transferReasons } from '#lib/plan/stay-bill.ts'
import { stayTable } from '#lib/plan/stay-table.ts'
import { openForecast, question } from '#tests/support/placement.ts'
import { placementCases, placementOf } from '#tests/support/placement-arbitrary.ts'

const sum = (reasons: readonly { readonly value: number }[]) =>
  reasons.reduce((total, { value }) => total + value, 0)

/** Every centre-per-stage path from a centre that no rule cuts, by brute force. */
function everyPath(from: number, stages: number, mayEnter: readonly boolean[]): number[][] {
  let paths = [[from]]
  for (let stage = 1; stage < stages; stage++) {
    paths = paths.flatMap(path =>
      mayEnter.flatMap((may, to) => (may || to === path.at(-1) ? [[...path, to]] : [])),
    )
  }
  return paths
}

describe('cheapestPaths', () => {
  it('has the smallest bill of all centre-per-stage paths', () => {
    fc.assert(
      fc.property(placementCases, drawn => {
        const { asked, outlook } = placementOf(drawn)
        const table = stayTable(asked, outlook, 'tonight')
        const cheapest = cheapestPaths(asked, table)
        const mayEnter = asked.centres.map(each => barsForGood(asked, each) === null)
        for (const from of asked.centres.keys()) {
          const bills = everyPath(from, asked.animals.stages.length, mayEnter).map(path =>
            sum(stayReasons(asked, table, path)),
          )
          expect(sum(stayReasons(asked, table, cheapest.pathFrom(from)))).toBeCloseTo(Math.min(...bills), 8)
        }
      }),
      { numRuns: 60 },
    )
  })
})

describe('the terms', () => {
  const asked = question()
  const table = stayTable(asked, outlookOf(openForecast()), 'tonight')

  it('damp what the forecast says, and not what is missing for good', () => {
    const { kappa } = asked.policy
    const first = { ...table.stages[0]![0]!, after: 3 }
    const priced = (hasHousing: boolean) => ({ ...table, stages: [[{ ...first, hasHousing }]] })
    expect(stageCost(asked, priced(true), 0, 0)).toBe(3 * kappa)
    expect(stageCost(asked, priced(false), 0, 0)).toBe(3)
  })

  it('weigh a missing place tonight by omega', () => {
    const full = { ...table, stages: [[{ ...table.stages[0]![0]!, onArrival: 2 }], ...table.stages.slice(1)] }
    expect(stayReasons(asked, full, [0, 0])[0]).toMatchObject({
      value: 8,
      reason: { kind: 'no place on arrival', short: 2, weight: 4, isTonight: true },
    })
  })

  it('weigh a move by the chance that it happens', () => {
    const [from, to] = [
      { id: 'ash', name: 'Ashdown Quay' },
      { id: 'birch', name: 'Birchover' },
    ]
    const reasons = transferReasons(asked, from, to, { km: 80, minutes: 96 }, 0.5)
    expect(reasons.map(({ value }) => value)).toEqual([1, 1])
  })

  it('refuse a move without a road', () => {
    const [from, to] = [
      { id: 'ash', name: 'Ashdown Quay' },
      { id: 'dune', name: 'Long Dune' },
    ]
    expect(() => roadBetween(asked, from, to)).toThrow('between needs a road')
  })
})
