import { describe, expect, it } from 'vitest'
import type { CheckRow } from '#lib/db/casualty.ts'
import type { KeepingRow, PlanRow, StageFactRow } from '#lib/db/casualty-happened.ts'
import { ribbonOfStay, type StayKnown } from '#lib/service/casualty-ribbon.ts'
import type { StayAhead } from '#lib/service/stay-ahead.ts'
import { estimate, TODAY } from '#tests/support/forecasting.ts'
import { at, HILL, networkState, SHORE } from '#tests/support/network-state.ts'

const entered = { by: null, at: at(0, 9) }
const stages = ['critical care', 'restricted activity', 'limited activity'] as const
const plan: PlanRow = {
  versionNo: 1,
  because: 'x',
  entered,
  stages: stages.map((stage, index) => ({
    no: index + 1,
    stage,
    housing: 'hospital-cage',
    centreId: null,
    estimate: estimate({ stage }),
    lengthsMark: 'CP',
    sharesMark: 'CP',
    exitTimesMark: 'CP',
    waitsFor: null,
  })),
}
const fact = (stageNo: number, kind: 'began' | 'ready', when: Date): StageFactRow => ({
  id: stageNo,
  stageNo,
  kind,
  at: when,
  within: null,
  entered,
})
const keeping = (id: number, since: Date, change: Partial<KeepingRow> = {}): KeepingRow => ({
  id,
  entryId: id,
  since,
  within: null,
  keeper: 'centre',
  keeperName: null,
  centreId: SHORE,
  centre: 'Centre 1',
  enclosure: 'Enclosure 11',
  outcome: null,
  overrideReason: null,
  isReplaced: false,
  isVoid: false,
  supersedes: null,
  entered,
  ...change,
})
const end = (day: number) => ({ q10: day, q25: day, median: day + 3, q75: day + 5, q90: day + 9 })
const ahead: StayAhead = {
  startDay: TODAY - 4,
  groundByDay: [0, 0.1],
  stages: [
    {
      no: 2,
      stage: 'restricted activity',
      centreId: SHORE,
      centre: 'Centre 1',
      end: end(TODAY + 2),
      isEndKnown: true,
      chance: 1,
      isHere: true,
    },
    {
      no: 3,
      stage: 'limited activity',
      centreId: HILL,
      centre: 'Centre 2',
      end: end(TODAY + 20),
      isEndKnown: true,
      chance: 0.6,
      isHere: false,
    },
  ],
}
const tonight = { state: networkState(), today: TODAY } as StayKnown['tonight']
const known: StayKnown = {
  tonight,
  ahead,
  plan,
  keepings: [keeping(1, at(-10, 8))],
  stageFacts: [fact(1, 'began', at(-10, 8)), fact(2, 'began', at(-4, 8))],
  checks: [],
}
const check = (id: number, change: Partial<CheckRow>): CheckRow => ({
  id,
  stageNo: 2,
  slug: 'radiograph',
  what: 'x',
  dueOn: null,
  intervalDays: null,
  requiredFor: 'next stage',
  who: 'vet',
  mark: 'CP',
  doneAt: null,
  doneWithin: null,
  enteredAt: null,
  doneBy: null,
  passed: null,
  result: null,
  found: null,
  signedBy: null,
  isCalledOff: false,
  ...change,
})

describe('the ribbon of a stay', () => {
  it('is crisp where a stage is past and slopes where the forecast speaks', () => {
    const ribbon = ribbonOfStay(known)
    expect(ribbon?.stages.map(({ stage, end: { q10, q90 } }) => [stage, q90 - q10])).toEqual([
      ['critical care', 0],
      ['restricted activity', 9],
      ['limited activity', 9],
    ])
    expect(ribbon?.stages[0]?.end.median).toBe(TODAY - 4)
    expect(ribbon?.startDay).toBe(TODAY - 10)
    expect(ribbon?.stages.map(one => one.chance)).toEqual([undefined, 1, 0.6])
  })

  it('names the enclosure it is in, and the road to the next centre', () => {
    const ribbon = ribbonOfStay(known)
    expect(ribbon?.stages.map(one => one.place)).toEqual([undefined, 'Enclosure 11', undefined])
    expect(ribbon?.stages.map(one => one.kmOn !== undefined)).toEqual([false, false, true])
  })

  it('ends where the case was closed', () => {
    const closed = ribbonOfStay({
      ...known,
      ahead: undefined,
      keepings: [keeping(1, at(-10, 8)), keeping(2, at(-1, 8), { keeper: 'nobody', outcome: 'released' })],
    })
    expect(closed?.stages.map(one => one.end.median)).toEqual([TODAY - 4, TODAY - 1])
    expect(closed?.groundByDay).toEqual([])
  })

  it('waits until today in a stage that is ready to be left', () => {
    const waiting = ribbonOfStay({ ...known, ahead: { ...ahead, stages: ahead.stages.slice(1) } })
    expect(waiting?.stages.map(one => one.end.q90)).toEqual([TODAY - 4, TODAY, TODAY + 29])
  })

  it('takes no account of facts that were corrected', () => {
    const wrong = keeping(2, at(-1, 8), { enclosure: 'Enclosure 12', isReplaced: true })
    const ribbon = ribbonOfStay({ ...known, keepings: [...known.keepings, wrong] })
    expect(ribbon?.stages[1]?.place).toBe('Enclosure 11')
  })

  it('carries checks by what they are now; weighings done and checks called off are left out', () => {
    const ribbon = ribbonOfStay({
      ...known,
      checks: [
        check(1, { dueOn: TODAY - 1 }),
        check(2, { dueOn: TODAY }),
        check(3, { dueOn: TODAY + 1 }),
        check(4, { doneAt: at(-2, 9), passed: true }),
        check(5, { slug: 'weigh', doneAt: at(-2, 9), passed: true }),
        check(6, { dueOn: TODAY, isCalledOff: true }),
        check(7, {}),
      ],
    })
    expect(ribbon?.checks.map(({ day, kind }) => [day - TODAY, kind])).toEqual([
      [-1, 'late'],
      [0, 'due'],
      [1, 'planned'],
      [-2, 'done'],
    ])
  })

  it('is none while nothing began and nothing is expected', () => {
    expect(ribbonOfStay({ ...known, ahead: undefined, stageFacts: [] })).toBeUndefined()
  })

  it('spans whole weeks, from before its first day to past its last', () => {
    const { axis, startDay } = ribbonOfStay(known)!
    expect(axis.days % 7).toBe(0)
    expect(axis.fromDay).toBeLessThan(startDay)
    expect(axis.fromDay + axis.days).toBeGreaterThan(TODAY + 29)
  })
})
