import { describe, expect, test } from 'vitest'
import { carePlan, orderOfCare, releasedShare } from '#lib/domain/care-plan.ts'
import { referenceRows, referenceTrade } from '#tests/support/reference.ts'

const { plans } = referenceTrade()

describe('the plans of the reference', () => {
  test('are all read, stage by stage and gate by gate', () => {
    const stages = plans.reduce((sum, plan) => sum + plan.stages.length, 0)
    const gates = plans.reduce((sum, plan) => sum + plan.gates.length, 0)
    expect([stages, gates]).toEqual([referenceRows('plans').length, referenceRows('gates').length])
  })

  // trade.md S47 and seed/reference/calibration.csv: 0.75 of closed coracoids released after 48 h in care.
  test('multiply to the chained share that the reference states', () => {
    const plan = plans.find(one => one.id === 'coracoid-fracture.any-bird.closed.conservative')
    expect(releasedShare(plan?.stages ?? [])).toBeCloseTo(0.5685, 4)
  })

  test('keep the mark of every number', () => {
    const lengths = plans.flatMap(plan => plan.stages.map(stage => stage.marks.lengths))
    expect(lengths.filter(mark => mark === null)).toEqual([])
  })
})

describe('a care plan', () => {
  test('has its stages in the order of care', () => {
    const plan = plans.find(one => one.stages.length > 1)
    const turned = { ...plan, stages: [...(plan?.stages ?? [])].reverse() }
    expect(carePlan.safeParse(turned).success).toBe(false)
    expect(carePlan.safeParse(plan).success).toBe(true)
  })

  test('begins before it ends', () => {
    expect(orderOfCare('critical care')).toBeLessThan(orderOfCare('overwintering'))
  })
})
