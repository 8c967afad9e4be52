import { describe, expect, test } from 'vitest'
import { checksOf, leastDaysIn, nextDueOn } from '#lib/domain/care-plan-check.ts'
import { combinePlans } from '#lib/domain/care-plan-combination.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const { plans } = referenceTrade()
const of = (id: string) => combinePlans(plans.filter(plan => plan.id === id))
const operated = of('leg-fracture.raptor.any.surgical')
const began = dayOfDate('2026-11-25')

describe('the checks of a stage', () => {
  const days = { admittedOn: began - 3, stageBeganOn: began, operatedOn: began + 1 }
  const checks = checksOf(operated.gates, 'restricted activity', days)

  test('are as many as the gates of that stage, the earliest first', () => {
    expect(checks).toHaveLength(operated.gates.filter(gate => gate.stage === 'restricted activity').length)
    const dated = checks.flatMap(check => (check.dueOn === null ? [] : [check.dueOn]))
    expect(dated).toEqual([...dated].sort((a, b) => a - b))
    expect(checks.slice(dated.length).every(check => check.dueOn === null)).toBe(true)
  })

  test('count from surgery where the gate does', () => {
    const gate = operated.gates.find(one => one.anchor === 'surgery' && one.stage === 'restricted activity')
    const dues = (known: typeof days | { operatedOn: null; admittedOn: number; stageBeganOn: number }) =>
      checksOf(operated.gates, 'restricted activity', known)
        .filter(check => check.check === gate?.check)
        .map(check => check.dueOn)
    expect(dues(days)).toContain(began + 1 + (gate?.offsetDays ?? 0))
    expect(dues({ ...days, operatedOn: null })).toContain(began + (gate?.offsetDays ?? 0))
  })

  test('say from which day they are counted, so that they move with it', () => {
    const known = { ...days, operatedOn: null }
    const start = checksOf(operated.gates, 'restricted activity', known)
    const later = checksOf(operated.gates, 'restricted activity', { ...known, stageBeganOn: began + 5 })
    const moved = start.map(({ dueOn, countedFrom }) =>
      dueOn === null || countedFrom === null ? dueOn : dueOn + began + 5 - countedFrom,
    )
    expect(start.some(({ countedFrom }) => countedFrom === began)).toBe(true)
    expect(moved.sort()).toEqual(later.map(({ dueOn }) => dueOn).sort())
    expect(checks.filter(one => one.countedFrom === null).length).toBeGreaterThan(0)
  })

  // trade.md, conditions: "Tissue dies over days: look again on days 3, 7 and 10", counted from admission.
  test('count from admission where the gate does', () => {
    const shocked = of('electrocution.raptor.severe.none')
    const looks = (['critical care', 'restricted activity'] as const).flatMap(stage =>
      checksOf(shocked.gates, stage, days).filter(check => check.check === 'second-look'),
    )
    expect(looks.map(check => (check.dueOn ?? 0) - days.admittedOn)).toEqual([3, 7, 10])
  })
})

test('a check that repeats is due again after its interval, another is not', () => {
  expect([nextDueOn({ intervalDays: 3 }, began), nextDueOn({ intervalDays: null }, began)]).toEqual([
    began + 3,
    null,
  ])
})

test('nobody goes on before the first day of a check that bars the way', () => {
  const coracoid = of('coracoid-fracture.any-bird.closed.conservative')
  expect(leastDaysIn(coracoid.gates, 'restricted activity')).toBe(17)
  expect(leastDaysIn(coracoid.gates, 'unlimited activity')).toBe(0)
})
