import { describe, expect, test } from 'vitest'
import { ZodError } from 'zod'
import { DIED_BY_DEFAULT } from '#lib/domain/estimate.ts'
import type { PlanGroupKnowledge, PlanKnowledge, PlanStageKnowledge } from '#lib/domain/knowledge.ts'
import { carePlanOf, planGroupOf } from '#lib/domain/knowledge-plan.ts'
import { referenceRows, referenceTrade } from '#tests/support/reference.ts'

const { plans } = referenceTrade()

const stage: PlanStageKnowledge = {
  stage_no: 1,
  stage: 'critical care',
  housing_type: 'intensive-care',
  min_size_note: 'none read',
  ready_median_days: 2,
  ready_p90_days: 6,
  calendar_gate: null,
  gate_opens: null,
  gate_closes: null,
  gate_min_days: null,
  gate_lag_median_days: null,
  gate_lag_p90_days: null,
  goes_on_means: 'next stage',
  goes_on: 0.7,
  died: 0.15,
  euthanased: 0.1,
  left_care: 0.05,
  died_median_days: 3,
  died_p90_days: 9,
  euthanased_median_days: 1,
  euthanased_p90_days: 4,
  carer_minutes_day: 30,
  mark_size: 'M',
  mark_durations: 'CP',
  mark_exit_times: 'D',
  mark_shares: 'R:S1',
  mark_minutes: 'CP',
  note: null,
}
const plan = (...stages: Partial<PlanStageKnowledge>[]): PlanKnowledge => ({
  id: 'emaciation.any-bird.any.none',
  condition_slug: 'emaciation',
  plan_group_slug: 'any bird',
  severity: 'any',
  treatment: 'none',
  stages: stages.map(change => ({ ...stage, ...change })),
  gates: [],
})
const only = (change: Partial<PlanStageKnowledge>) => carePlanOf(plan(change)).stages[0]!

describe('a stage out of the records', () => {
  test('keeps its numbers, each way out with its share and time', () => {
    expect(only({}).estimate).toEqual({
      stage: 'critical care',
      ready: { kind: 'length', length: { medianDays: 2, p90Days: 6 } },
      shares: { onward: 0.7, died: 0.15, euthanased: 0.1, left: 0.05 },
      died: { medianDays: 3, p90Days: 9 },
      euthanased: { medianDays: 1, p90Days: 4 },
    })
    expect(only({}).marks).toEqual({
      size: 'M',
      lengths: 'CP',
      exitTimes: 'D',
      shares: 'R:S1',
      minutes: 'CP',
    })
  })

  test('has the default time to death where the plan says none or half of one, and only there', () => {
    expect(only({ died_median_days: null, died_p90_days: null }).estimate).toMatchObject({
      died: DIED_BY_DEFAULT,
      euthanased: { medianDays: 1, p90Days: 4 },
    })
    expect(only({ euthanased_p90_days: null }).estimate.euthanased).toEqual(DIED_BY_DEFAULT)
  })

  test('waits for a date where the gate has one, and for a state where it has none', () => {
    const dated = only({
      calendar_gate: 'moult',
      gate_opens: '07-01',
      gate_closes: '10-31',
      gate_min_days: 28,
      gate_lag_median_days: 14,
      gate_lag_p90_days: 42,
    })
    expect(dated.stateGate).toBe(null)
    expect(dated.estimate.ready).toEqual({
      kind: 'date gate',
      opens: '07-01',
      closes: '10-31',
      minDays: 28,
      lag: { medianDays: 14, p90Days: 42 },
    })
    const fledging = only({ calendar_gate: 'fledging' })
    expect([fledging.stateGate, fledging.estimate.ready.kind]).toEqual(['fledging', 'length'])
  })
})

describe('what the domain refuses is not let in', () => {
  test.each<[string, Partial<PlanStageKnowledge>[]]>([
    ['shares that do not sum to one', [{ goes_on: 0.8 }]],
    ['a stage with no usual time', [{ ready_median_days: null }]],
    ['a 90th percentile below the median', [{ ready_p90_days: 1 }]],
    [
      'a gate on no day of the year',
      [{ gate_opens: '02-30', gate_lag_median_days: 1, gate_lag_p90_days: 2 }],
    ],
    ['stages out of the order of care', [{ stage: 'unlimited activity' }, { stage: 'critical care' }]],
    ['a plan without stages', []],
  ])('%s', (_, stages) => {
    expect(() => carePlanOf(plan(...stages))).toThrow(ZodError)
  })

  test('a plan group without a name', () => {
    const group: PlanGroupKnowledge = {
      slug: 'owl',
      class: 'bird',
      groups: ['owls'],
      species: [],
      age: null,
      wider: null,
    }
    expect(planGroupOf(group)).toEqual(group)
    expect(() => planGroupOf({ ...group, slug: '' })).toThrow(ZodError)
  })
})

test('nothing of the reference is lost on the way: every row, gate and mark of length', () => {
  const rows = referenceRows('plans').map(row => [
    row['plan_id'],
    row['stage'],
    row['mark_durations'] || null,
  ])
  expect(
    plans.flatMap(one => one.stages.map(({ stage: name, marks }) => [one.id, name, marks.lengths])),
  ).toEqual(expect.arrayContaining(rows))
  expect(plans.flatMap(one => one.stages)).toHaveLength(rows.length)
  expect(plans.flatMap(one => one.gates)).toHaveLength(referenceRows('gates').length)
})
