import { describe, expect, test } from 'vitest'
import type { CarePlan } from '#lib/domain/care-plan.ts'
import { dayOfDate, startOfDay } from '#lib/domain/day.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import {
  cellRecords,
  cellsOf,
  DAYS_MAX,
  DAYS_STEP,
  daysOfCell,
  type StageRow,
  usualWait,
} from '#lib/learn/cells.ts'
import { estimate, length, OVERWINTERING } from '../../support/forecasting.ts'
import { ended, inCare } from '../../support/learning.ts'

const ZONE = 'Europe/London'
const AS_OF = dayOfDate('2026-11-25')
const at = (date: string, hour = 12) =>
  new Date(startOfDay(dayOfDate(date), ZONE).getTime() + hour * 3_600_000)

const stage = (name: StageEstimate['stage'], change: Partial<StageEstimate> = {}) => ({
  stage: name,
  housing: 'hospital-cage' as const,
  sizeNote: null,
  estimate: { ...estimate(change), stage: name },
  stateGate: null,
  carerMinutesPerDay: null,
  marks: { size: null, lengths: null, exitTimes: null, shares: null, minutes: null },
  note: null,
})
const plan = (id: string, stages: CarePlan['stages']): CarePlan => ({
  id,
  condition: id.split('.')[0]!,
  planGroup: 'any-bird',
  severity: 'any',
  treatment: 'none',
  stages,
  gates: [],
})
const CAT = plan('cat.any-bird.any.none', [stage('critical care'), stage('restricted activity')])
const WINTER = plan('light.hedgehog.any.none', [stage('overwintering', OVERWINTERING)])
const LEG = plan('leg.any-bird.any.none', [
  stage('restricted activity', { ready: { kind: 'length', length: length(30, 60) } }),
])

const row = (change: Partial<StageRow> = {}): StageRow => ({
  casualtyId: 1,
  admittedAt: at('2026-10-01'),
  planIds: [CAT.id],
  stageNo: 1,
  estimate: CAT.stages[0]!.estimate,
  beganAt: at('2026-10-01'),
  beganEarliest: null,
  readyAt: at('2026-10-05'),
  readyEarliest: null,
  nextAt: null,
  endedAt: null,
  endedEarliest: null,
  outcome: null,
  notPassedAt: null,
  ...change,
})
const staysOf = (rows: readonly StageRow[], plans: readonly CarePlan[] = [CAT, WINTER, LEG]) => {
  const found = cellRecords(cellsOf(plans, rows), rows, ZONE, AS_OF)
  return Object.fromEntries(found.map(({ key, stays }) => [key, stays]))
}

describe('the cells', () => {
  test('are every stage of every plan, by season of admission where a date ends it', () => {
    expect(cellsOf([CAT, WINTER], []).map(({ key }) => key)).toEqual([
      'cat.any-bird.any.none|1',
      'cat.any-bird.any.none|2',
      'light.hedgehog.any.none|1|autumn',
      'light.hedgehog.any.none|1|spring',
      'light.hedgehog.any.none|1|summer',
      'light.hedgehog.any.none|1|winter',
    ])
  })

  test('have a combination that records name, as its plans are put together today', () => {
    const both = [LEG.id, CAT.id]
    const cells = cellsOf([CAT, LEG], [row({ planIds: both, estimate: CAT.stages[1]!.estimate, stageNo: 2 })])
    const combined = cells.filter(({ planIds }) => planIds.length === 2)
    expect(combined.map(({ key }) => key)).toEqual([
      'cat.any-bird.any.none+leg.any-bird.any.none|1',
      'cat.any-bird.any.none+leg.any-bird.any.none|2',
    ])
    expect(combined[1]).toMatchObject({
      condition: 'cat+leg',
      estimate: { ready: { length: { medianDays: 30, p90Days: 60 } } },
    })
  })

  test('have what today’s plan says, without its check, whatever an animal’s own copy said', () => {
    const edited = { ...CAT.stages[0]!.estimate, ready: { kind: 'length', length: length(99, 200) } } as const
    const [cell] = cellsOf([CAT], [row({ estimate: edited })])
    expect(cell?.estimate).toEqual({ ...CAT.stages[0]!.estimate })
    const barred = plan('b.any-bird.any.none', [stage('critical care', { leastDays: 5 })])
    expect(cellsOf([barred], [])[0]?.estimate).not.toHaveProperty('leastDays')
  })

  test('of a plan that is gone have its newest copy', () => {
    const gone = ['gone.any-bird.any.none']
    const copy = (median: number) => estimate({ ready: { kind: 'length', length: length(median, 90) } })
    const rows = [8, 9].map(median => row({ planIds: gone, estimate: copy(median) }))
    expect(cellsOf([CAT], rows).find(({ planIds }) => planIds[0] === gone[0])).toMatchObject({
      key: 'gone.any-bird.any.none|1',
      condition: 'gone',
      estimate: { ready: { length: { medianDays: 9 } } },
    })
  })
})

describe('a record', () => {
  test('counts midnights of the network between its days, to the day it was said ready', () => {
    const { 'cat.any-bird.any.none|1': stays } = staysOf([
      row({ beganAt: at('2026-10-24', 23), readyAt: at('2026-10-26', 1), nextAt: at('2026-10-30') }),
    ])
    expect(stays).toEqual([
      {
        key: '1|1',
        enteredOn: dayOfDate('2026-10-24'),
        end: { kind: 'exit', exit: 'onward', on: dayOfDate('2026-10-26') },
      },
    ])
  })

  test('that began on some day of several began on the middle one, and not after it ended', () => {
    const entered = (change: Partial<StageRow>) =>
      staysOf([row({ beganAt: at('2026-10-11'), beganEarliest: at('2026-10-06'), ...change })])[
        'cat.any-bird.any.none|1'
      ]![0]!.enteredOn
    expect(entered({ readyAt: at('2026-10-20') })).toBe(dayOfDate('2026-10-08'))
    expect(entered({ readyAt: at('2026-10-07') })).toBe(dayOfDate('2026-10-07'))
    expect(entered({ readyAt: at('2026-10-02') })).toBe(dayOfDate('2026-10-06'))
  })

  test('of a copy that a person changed is one of its cell, found by its stage wherever that stands today', () => {
    const moved = row({ stageNo: 7, estimate: { ...CAT.stages[1]!.estimate, died: length(1, 2) } })
    expect(staysOf([moved])['cat.any-bird.any.none|2']).toHaveLength(1)
  })

  test('of a stage that its plan no longer has teaches nothing', () => {
    const rows = [row({ estimate: { ...CAT.stages[0]!.estimate, stage: 'quarantine' } })]
    expect(Object.values(staysOf(rows)).flat()).toEqual([])
  })

  test('goes by its season of admission where a date ends the stage, and waits for that date', () => {
    const rows = [
      row({
        planIds: [WINTER.id],
        estimate: WINTER.stages[0]!.estimate,
        admittedAt: at('2025-11-30'),
        beganAt: at('2025-12-10'),
        readyAt: at('2026-04-02'),
      }),
    ]
    expect(staysOf(rows)['light.hedgehog.any.none|1|autumn']).toMatchObject([
      { gate: { opens: dayOfDate('2026-03-20') } },
    ])
  })

  test('is barred by the check of its own copy, and known unfit where one was not passed', () => {
    const checked = row({
      estimate: { ...CAT.stages[0]!.estimate, leastDays: 3 },
      notPassedAt: at('2026-10-04'),
    })
    expect(staysOf([checked])['cat.any-bird.any.none|1']).toMatchObject([
      { gate: { check: dayOfDate('2026-10-04'), tested: dayOfDate('2026-10-04') } },
    ])
  })
})

describe('the days of a cell', () => {
  const of = (medianDays: number, p90Days: number) =>
    estimate({ ready: { kind: 'length', length: length(medianDays, p90Days) } })

  test('reach four times as far as nine of ten by the plan, in whole steps', () => {
    expect(daysOfCell(of(1, 4), [], AS_OF)).toBe(DAYS_STEP)
    expect(daysOfCell(of(20, 32), [], AS_OF)).toBe(DAYS_STEP)
    expect(daysOfCell(of(20, 33), [], AS_OF)).toBe(2 * DAYS_STEP)
    expect(daysOfCell(of(300, 1500), [], AS_OF)).toBe(DAYS_MAX)
  })

  test('hold the longest stay, and the longest wait for a date', () => {
    expect(daysOfCell(of(1, 4), [ended('onward', 300)], AS_OF)).toBe(3 * DAYS_STEP)
    expect(daysOfCell(of(1, 4), [inCare(128)], AS_OF)).toBe(2 * DAYS_STEP)
    // A year's wait, ten days at least, and four times a lag of 35 days.
    expect(daysOfCell(OVERWINTERING, [], AS_OF)).toBe(5 * DAYS_STEP)
  })
})

test('the usual wait for a date is that of an animal that enters in the middle of its season', () => {
  const waits = cellsOf([WINTER, CAT], []).map(cell => [cell.season, usualWait(cell, AS_OF)])
  // To 20 March: from 15 October 2026, and from 15 January 2026; on 15 April it is open, as long as ten days have passed.
  expect(waits).toEqual([
    [null, 0],
    [null, 0],
    ['autumn', 156],
    ['spring', 10],
    ['summer', 248],
    ['winter', 64],
  ])
})
