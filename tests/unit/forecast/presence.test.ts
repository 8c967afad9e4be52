import { expect, test } from 'vitest'
import { oneOn, poolPresences, walkItinerary } from '#lib/forecast/presence.ts'
import { stageLaw } from '#lib/forecast/stage-law.ts'
import { newWork } from '#lib/numerics/work.ts'
import { estimate, itinerary, stage, TODAY } from '../../support/forecasting.ts'

const CLOCK = { today: TODAY, horizonDays: 40, shareOfTodayLeft: 0.5 }
const PATH = [stage('cage'), stage('aviary'), stage('aviary', {}, { size: 4 })]
const presencesOf = (
  change: Parameters<typeof itinerary>[2],
  count: 'midnight' | 'day' = 'midnight',
  turnaround = 0,
) =>
  poolPresences(PATH, walkItinerary(itinerary('a', PATH, change), CLOCK, newWork()), count, () => turnaround)

test('stages in one pool are one occupation, with the larger need', () => {
  const found = presencesOf({})
  expect(found.map(({ poolId, need }) => [poolId, need.size])).toEqual([
    ['cage', 2],
    ['aviary', 4],
  ])
  const { walks } = walkItinerary(itinerary('a', PATH), CLOCK, newWork())
  expect(found[1]!.presence[30]).toBeCloseTo(walks[1]!.present[30]! + walks[2]!.present[30]!, 15)
})

test('expected on a day to come: nowhere before it, on its way by the plan after it', () => {
  const [cage] = presencesOf({ enteredStageOn: TODAY + 5 })
  const law = stageLaw(estimate(), TODAY, 40)
  expect(cage!.presence[4]).toBe(0)
  for (let d = 5; d < 40; d++) expect(cage!.presence[d]).toBeCloseTo(law.staying[d - 5]!, 14)
  expect(presencesOf({ enteredStageOn: TODAY + 90 })[0]!.presence.every(p => p === 0)).toBe(true)
})

test('ready for the next stage: its demand is already there, and it begins today', () => {
  const found = presencesOf({ isReady: true, enteredStageOn: TODAY - 30 })
  expect(found.map(({ poolId }) => poolId)).toEqual(['aviary'])
  const [h] = stageLaw(estimate(), TODAY, 1).staying
  // Of the first of its two aviary stages some go on to the second today: still in the aviary.
  expect(found[0]!.presence[0]).toBeGreaterThan(h! ** 0.5)
})

test('ready in its last stage: its place is taken tonight and free tomorrow', () => {
  const [last] = presencesOf({ firstStage: 2, isReady: true })
  expect(Array.from(last!.presence.subarray(0, 3))).toEqual([1, 0, 0])
})

test('not counted for four days: it may have gone unseen since then', () => {
  const seen = presencesOf({ enteredStageOn: TODAY - 10 })
  const unseen = presencesOf({ enteredStageOn: TODAY - 10, unseenDays: 4 })
  const law = stageLaw(estimate(), TODAY, 40)
  expect(unseen[0]!.presence[0]).toBeCloseTo(law.staying[10]! / law.staying[5]!, 13)
  expect(unseen[0]!.presence[0]).toBeLessThan(seen[0]!.presence[0]!)
  expect(unseen[1]!.presence[0]).toBeGreaterThan(seen[1]!.presence[0]!)
  // Known to have come yesterday: the silence is one day long.
  const recent = walkItinerary(
    itinerary('a', PATH, { enteredStageOn: TODAY - 1, unseenDays: 4 }),
    CLOCK,
    newWork(),
  )
  expect(recent.back).toBe(1)
})

test('cleaning keeps the place for days after it is left', () => {
  const plain = presencesOf({})[0]!.presence
  const cleaned = presencesOf({}, 'midnight', 2)[0]!.presence
  expect(cleaned[0]).toBeCloseTo(1, 14)
  expect(cleaned[1]).toBeCloseTo(1, 14)
  for (let d = 2; d < 40; d++) expect(cleaned[d]).toBeCloseTo(plain[d - 2]!, 13)
})

test('the second count holds who was in last night and who comes in the day', () => {
  const midnight = presencesOf({ enteredStageOn: TODAY + 3 })[0]!.presence
  const day = presencesOf({ enteredStageOn: TODAY + 3 }, 'day')[0]!.presence
  expect(day[2]).toBe(0)
  expect(day[3]).toBe(1)
  for (let d = 4; d < 40; d++) expect(day[d]).toBeCloseTo(midnight[d - 1]!, 15)
  expect(presencesOf({}, 'day')[0]!.presence[0]).toBe(1)
})

test('a walk starts on one of its stages', () => {
  expect(() => walkItinerary(itinerary('a', PATH, { firstStage: 3 }), CLOCK, newWork())).toThrow(
    'firstStage needs an index below 3, got 3',
  )
  expect(Array.from(oneOn(1, 3))).toEqual([0, 1, 0])
})
