import { describe, expect, it } from 'vitest'
import { meanEventSize } from '#lib/domain/arrivals.ts'
import { dayOfDate, weekdayOf } from '#lib/domain/day.ts'
import { ALL_SPECIES_SHAPE, shareOfDay } from '#lib/domain/season.ts'
import { learnArrivals, type RecordedArrival, type UsualYear } from '#lib/learn/arrivals.ts'
import { logGammaDraw } from '#lib/numerics/gamma.ts'
import { seededRandom } from '#lib/numerics/random.ts'

const FROM = dayOfDate('2024-04-01')
const TODAY = dayOfDate('2026-04-01')
const USUAL: UsualYear[] = [
  { centreId: 1, animalsPerYear: 300, monthShares: ALL_SPECIES_SHAPE.shares, eventSizes: [0.7, 0.2, 0.1] },
  { centreId: 2, animalsPerYear: 100, monthShares: ALL_SPECIES_SHAPE.shares, eventSizes: [1] },
]
const isYoung = (day: number) => [5, 6, 7].includes(Number(new Date(day * 86_400_000).getUTCMonth() + 1))
const enteredOn = (day: number) =>
  USUAL.reduce(
    (sum, { animalsPerYear, monthShares, eventSizes }) =>
      sum + (animalsPerYear * shareOfDay(monthShares, day)) / (isYoung(day) ? meanEventSize(eventSizes) : 1),
    0,
  )
const learn = (records: readonly RecordedArrival[], from = FROM) =>
  learnArrivals({ group: 'owls', usual: USUAL, records, from, asOf: TODAY, isYoung }, 400)

/** Poisson counts of gamma days: `times` what was entered, a weekend `weekend` times a day of the week. */
function drawArrivals(seed: number, times: number, weekend: number, centreId: number | null = 1) {
  const random = seededRandom(seed)
  const drawn: RecordedArrival[] = []
  for (let day = FROM; day < TODAY; day++) {
    const level = Math.exp(logGammaDraw(6, random)) / 6
    const mean = enteredOn(day) * times * level * (weekdayOf(day) >= 6 ? weekend : 1)
    const left = Math.exp(-mean)
    for (let u = random(); u > left; u *= random()) drawn.push({ day, centreId, animals: 1, planIds: null })
  }
  return drawn
}

describe('without records', () => {
  const learned = learn([], TODAY)

  it('arrivals are what the centres entered, day for day', () => {
    for (const [d, events] of learned.eventsPerDay.entries())
      expect(events / enteredOn(TODAY + d)).toBeCloseTo(1, 9)
  })

  it('nothing is said to be learned', () => {
    expect(learned.events).toBe(0)
    expect(learned.level.mean).toBeCloseTo(1, 9)
    expect(learned.level.low).toBeLessThan(0.6)
    expect(learned.level.high).toBeGreaterThan(1.3)
    expect(learned.weekend).toBeCloseTo(1, 9)
  })
})

describe('with two years of records', () => {
  const TRUTH = 1.5 * (1 + (2 / 7) * 0.3)
  const many = [1, 2, 3, 4, 5, 6].map(seed => learn(drawArrivals(seed, 1.5, 1.3)))

  it('the level is found, and its range holds it mostly', () => {
    const mean = many.reduce((sum, { level }) => sum + level.mean, 0) / many.length
    expect(mean / TRUTH).toBeGreaterThan(0.93)
    expect(mean / TRUTH).toBeLessThan(1.07)
    expect(many.filter(({ level }) => level.low < TRUTH && TRUTH < level.high).length).toBeGreaterThanOrEqual(
      3,
    )
  })

  it('weekends are told apart', () => {
    expect(many.reduce((sum, { weekend }) => sum + weekend, 0) / many.length).toBeGreaterThan(1.12)
  })

  it('the year ahead comes out near what is true', () => {
    for (const { eventsPerDay } of many) {
      const expected = eventsPerDay.slice(0, 365).reduce((a, b) => a + b)
      const entered = Array.from({ length: 365 }, (_, d) => enteredOn(TODAY + d)).reduce((a, b) => a + b)
      expect(expected / entered / TRUTH).toBeGreaterThan(0.8)
      expect(expected / entered / TRUTH).toBeLessThan(1.25)
    }
  })
})

it('a season of refusals does not lower what is expected', () => {
  const came = drawArrivals(9, 1, 1)
  const refused = came.map(one => (one.day > TODAY - 90 ? { ...one, centreId: null } : one))
  const [all, some] = [learn(came), learn(refused)]
  expect([...some.eventsPerDay]).toEqual([...all.eventsPerDay])
  expect(some.refused).toBeGreaterThan(0)
  expect(some.events).toBe(all.events)
  // Left out they would lower it, so the check can fail.
  const forgotten = learn(refused.filter(({ centreId }) => centreId !== null))
  expect(forgotten.eventsPerDay[0]).toBeLessThan(0.95 * all.eventsPerDay[0]!)
})

it('a season that begins poorly is expected to stay so until its end, and no longer', () => {
  const came = drawArrivals(10, 1, 1)
  const spring = dayOfDate('2026-03-01')
  const poor = learn(came.filter(({ day }, i) => day < spring || i % 3 === 0))
  expect(poor.season.mean).toBeLessThan(0.95)
  const last = poor.season.until - TODAY - 1
  const step = (d: number) => poor.eventsPerDay[d]! / enteredOn(TODAY + d)
  expect(step(last) / step(last + 7)).toBeCloseTo(poor.season.mean, 1)
})

it('takes a group that nobody entered, and refuses a record from another time', () => {
  const alone = { group: 'new', usual: [], from: FROM, asOf: TODAY, isYoung }
  const two = { centreId: 4, animals: 2, planIds: null }
  const learned = learnArrivals({ ...alone, records: [{ ...two, day: FROM + 3 }] }, 30)
  expect(learned.eventsPerDay.every(events => events > 0 && events < 0.05)).toBe(true)
  expect(() => learnArrivals({ ...alone, records: [{ ...two, day: TODAY }] }, 30)).toThrow(RangeError)
})
