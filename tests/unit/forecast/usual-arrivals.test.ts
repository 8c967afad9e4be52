import { describe, expect, test } from 'vitest'
import type { CarePlan } from '#lib/domain/care-plan.ts'
import { leastDaysIn } from '#lib/domain/care-plan-check.ts'
import { planFor } from '#lib/domain/care-plan-choice.ts'
import { combinePlans } from '#lib/domain/care-plan-combination.ts'
import { ANY_REASON } from '#lib/domain/condition.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import type { LearnedRates } from '#lib/domain/learned-arrivals.ts'
import type { CentreState, NetworkState } from '#lib/domain/network-state.ts'
import { cellKey, type Season } from '#lib/domain/stage-cell.ts'
import type { Trade } from '#lib/domain/trade.ts'
import type { ArrivalStream } from '#lib/forecast/model.ts'
import { poolsOf } from '#lib/forecast/pools.ts'
import { arrivalStreams } from '#lib/forecast/usual-arrivals.ts'
import { learnMix } from '#lib/learn/arrival-mix.ts'
import { OVERWINTERING, TODAY } from '#tests/support/forecasting.ts'
import { learnedOf } from '#tests/support/learned.ts'
import { at, centreState, HILL, networkState, SHORE } from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const BLACKBIRD = { species: 'blackbird', group: 'thrushes-starlings', class: 'bird', age: 'adult' } as const
const streamsOf = (change: Partial<NetworkState> = {}, today = TODAY, days = 30) => {
  const state = networkState(change)
  return arrivalStreams(state, trade, poolsOf(state, today, days), today, days)
}
const meanSize = ({ broodSizePmf }: ArrivalStream) =>
  broodSizePmf.reduce((sum, share, b) => sum + share * (b + 1), 0)
const animals = (streams: readonly ArrivalStream[]) =>
  streams.reduce(
    (sum, one) => sum + one.eventsPerDay.reduce((all, events) => all + events, 0) * meanSize(one),
    0,
  )
const row = networkState().arrivals[0]!

describe('the expected number of animals is kept', () => {
  test('over a year: the number the year was given', () => {
    expect(animals(streamsOf({}, dayOfDate('2027-01-01'), 365))).toBeCloseTo(row.animalsPerYear, 10)
  })

  test('over parts of months: each month by its days', () => {
    const streams = streamsOf({}, dayOfDate('2027-05-20'), 30)
    expect(animals(streams)).toBeCloseTo(60 * ((0.22 * 12) / 31 + (0.2 * 18) / 30), 10)
  })

  test('whatever number comes at once', () => {
    const from = dayOfDate('2027-05-01')
    const bySize = [[1], [0, 0, 0, 1], [3, 2, 1]].map(eventSizes =>
      streamsOf({ arrivals: [{ ...row, eventSizes }] }, from),
    )
    for (const streams of bySize) expect(animals(streams)).toBeCloseTo(animals(bySize[0]!), 10)
    expect(meanSize(bySize[1]![0]!)).toBe(4)
  })
})

test('shares of sizes sum to 1, and adults come singly', () => {
  const year = streamsOf({}, dayOfDate('2027-01-01'), 365)
  const kinds = year.map(({ key, broodSizePmf }) => [key.includes(':young'), broodSizePmf])
  expect(kinds).toContainEqual([true, [0.5, 0.25, 0.25]])
  expect(kinds.filter(([isYoung]) => isYoung === false).map(([, pmf]) => pmf)).toContainEqual([1])
  expect(kinds.filter(([isYoung]) => isYoung === false).every(([, pmf]) => String(pmf) === '1')).toBe(true)
  expect(new Set(year.map(({ key }) => key)).size).toBe(year.length)
})

test('usual arrivals wait for the checks of the plan for any reason', () => {
  const { plan } = planFor(trade, { species: 'blackbird', group: row.group, class: 'bird', age: 'adult' }, [
    { condition: ANY_REASON },
  ])
  const adult = streamsOf().find(({ key }) => key.endsWith(':adult'))!
  const least = adult.stages.map(stage => stage.estimate.leastDays)
  expect(least).toEqual(plan.stages.map(({ stage }) => leastDaysIn(plan.gates, stage)))
  expect(least.some(days => days !== undefined && days > 0)).toBe(true)
})

describe('a centre under a stop', () => {
  const stopped = (stop: Partial<NonNullable<CentreState['stop']>>): Partial<NetworkState> => ({
    centres: [
      centreState(SHORE, {
        stop: {
          siteState: 'no-movement',
          coversClass: null,
          startsAt: at(-1, 9),
          endsAt: null,
          reason: '',
          ...stop,
        },
      }),
      centreState(HILL),
    ],
  })
  const centresOf = (streams: readonly ArrivalStream[]) =>
    streams.map(({ stages }) => stages.find(stage => stage.poolId !== null)?.poolId?.split(':')[0])

  test('gets none; the nearest centre that takes them does, all of them', () => {
    const streams = streamsOf(stopped({}))
    expect(centresOf(streams)).toEqual(streams.map(() => String(HILL)))
    expect(streams.length).toBeGreaterThan(0)
    expect(animals(streams)).toBeCloseTo(animals(streamsOf()), 12)
  })

  test('gets its own again from the day the stop ends', () => {
    const streams = streamsOf(stopped({ endsAt: at(10, 0) }))
    const firstDay = ({ eventsPerDay }: ArrivalStream) => eventsPerDay.findIndex(events => events > 0)
    const byCentre = new Map(centresOf(streams).map((centre, n) => [centre, firstDay(streams[n]!)]))
    expect(byCentre).toEqual(
      new Map([
        ['1', 10],
        ['2', 0],
      ]),
    )
    expect(animals(streams)).toBeCloseTo(animals(streamsOf()), 12)
  })

  test('that is not theirs keeps them', () => {
    for (const stop of [{ coversClass: 'mammal' }, { siteState: 'closed-to-high-risk' }] as const)
      expect(streamsOf(stopped(stop))).toEqual(streamsOf())
  })
})

test('a centre without such housing begins at home and goes on to the nearest that has it', () => {
  const path = streamsOf()[0]!.stages.map(stage => stage.poolId)
  expect(path[0]).toBe('1:intensive-care')
  expect(path.at(-1)).toBe('2:flight-aviary')
})

describe('learned from records', () => {
  const from = dayOfDate('2027-05-01')
  const even = (centreId: number) => [
    { centreId, share: 0.75 },
    { centreId: HILL, share: 0.25 },
  ]
  const learned = (events: number, days: number): LearnedRates => ({
    group: row.group,
    run: '1',
    from,
    eventsPerDay: new Float64Array(days).fill(events),
    sizes: { young: [0.25, 0.75], grown: [1] },
    shares: {
      winter: even(row.centreId),
      spring: even(row.centreId),
      summer: even(row.centreId),
      autumn: even(row.centreId),
    },
    mix: learnMix([]),
  })
  const learnedStreams = (rates: LearnedRates, change: Partial<NetworkState> = {}, days = 30) => {
    const state = networkState(change)
    const known = { ...trade, arrivals: new Map([[rates.group, rates]]) }
    return arrivalStreams(state, known, poolsOf(state, from, days), from, days)
  }

  test('arrivals are those learned, shared among the centres, with the sizes learned', () => {
    const streams = learnedStreams(learned(2, 30))
    const at = (id: number) => streams.filter(({ key }) => key.startsWith(`${id}:`))
    const events = (id: number) =>
      at(id).reduce((sum, one) => sum + one.eventsPerDay.reduce((a, b) => a + b), 0)
    expect(events(row.centreId)).toBeCloseTo(2 * 0.75 * 30, 10)
    expect(at(row.centreId).find(({ key }) => key.includes(':young'))?.broodSizePmf).toEqual([0.25, 0.75])
  })

  test('a centre that entered nothing of the group gets what records gave it, if it takes the group', () => {
    const [home, hill] = [centreState(SHORE), centreState(HILL)]
    const taking = learnedStreams(learned(2, 30), {
      centres: [home, { ...hill, takes: [...hill.takes, row.group] }],
    })
    const refusing = learnedStreams(learned(2, 30), {
      centres: [home, { ...hill, takes: hill.takes.filter(group => group !== row.group) }],
    })
    const isAtHill = ({ key }: ArrivalStream) => key.startsWith(`${HILL}:`)
    expect(taking.some(isAtHill)).toBe(true)
    expect(refusing.some(isAtHill)).toBe(false)
  })

  test('they go by the plans that records show, in the shares of the season, and as many come', () => {
    const orphan = ['orphan-young.passerine.moderate.none']
    const half = [
      { planIds: [], share: 0.25 },
      { planIds: orphan, share: 0.75 },
    ]
    const usual = [{ planIds: [], share: 1 }]
    const mix = { winter: usual, spring: half, summer: usual, autumn: usual }
    // May is spring, June is not.
    const streams = learnedStreams({ ...learned(2, 60), mix }, {}, 60)
    const sum = (some: readonly ArrivalStream[]) =>
      some.reduce((all, one) => all + one.eventsPerDay.reduce((a, b) => a + b), 0)
    const orphans = streams.filter(({ key }) => key.includes('orphan-young'))
    const home = (some: readonly ArrivalStream[]) =>
      some.filter(({ key }) => key.startsWith(`${row.centreId}:`))
    expect(sum(home(streams))).toBeCloseTo(2 * 0.75 * 60, 10)
    expect(sum(home(orphans))).toBeCloseTo(2 * 0.75 * 0.75 * 31, 10)
    const plan = combinePlans(trade.plans.filter(({ id }) => id === orphan[0]))
    expect(orphans[0]!.stages.map(({ estimate }) => estimate)).toEqual(
      plan.stages.map(({ estimate }) => estimate),
    )
  })

  test('who go by a plan are as old as records say, and as many, whatever the month', () => {
    const plan = (young: number) => {
      const of = [{ planIds: ['orphan-young.passerine.moderate.none'], share: 1, young }]
      return { winter: of, spring: of, summer: of, autumn: of }
    }
    const [old, young] = [0.4, 0.6].map(share => learnedStreams({ ...learned(2, 30), mix: plan(share) }))
    expect(
      old!.every(({ key, broodSizePmf }) => key.includes(':adult') && String(broodSizePmf) === '1'),
    ).toBe(true)
    expect(young!.every(({ key }) => key.includes(':young'))).toBe(true)
    // May is a month in which young come, two boxes a day of 1.75 animals.
    expect(animals(old!)).toBeCloseTo(2 * 30 * 1.75, 10)
    expect(animals(young!)).toBeCloseTo(2 * 30 * 1.75, 10)
  })

  test('a plan that setup has no more gives way to the usual one, and nobody is lost', () => {
    const gone = [{ planIds: ['gone'], share: 1 }]
    const mix = { winter: gone, spring: gone, summer: gone, autumn: gone }
    const [named, usual] = [learnedStreams({ ...learned(2, 30), mix }), learnedStreams(learned(2, 30))]
    expect(animals(named)).toBeCloseTo(animals(usual), 10)
    expect(named[0]!.stages).toEqual(usual[0]!.stages)
  })

  test('days beyond what was learned are those of the usual year', () => {
    const entered = streamsOf({}, from, 60)
    const streams = learnedStreams(learned(2, 30), {}, 60)
    const on = (all: readonly ArrivalStream[], d: number) =>
      all
        .filter(({ key }) => key.startsWith(`${row.centreId}:`))
        .reduce((sum, one) => sum + one.eventsPerDay[d]!, 0)
    expect(on(streams, 29)).toBeCloseTo(1.5, 12)
    expect(on(streams, 40)).toBe(on(entered, 40))
  })
})

describe('where the usual plan has a stage that ends by a date', () => {
  const { plan } = planFor(trade, BLACKBIRD, [{ condition: ANY_REASON }])
  const [id] = plan.planIds
  const dated = (one: CarePlan): CarePlan => ({
    ...one,
    stages: one.stages.map((stage, at) =>
      at === 1 ? { ...stage, estimate: { ...OVERWINTERING, stage: stage.stage } } : stage,
    ),
  })
  const plans = trade.plans.map(one => (one.id === id ? dated(one) : one))
  const known = (...names: Season[]): Trade => {
    const learned = names.map(name => learnedOf({ passes: [0.1] }, { key: cellKey([id!], 2, name) }))
    return { ...trade, plans, learned: new Map(learned.map(one => [one.key, one])) }
  }
  const made = (knowledge: Trade) => {
    const state = networkState()
    return arrivalStreams(state, knowledge, poolsOf(state, TODAY, 90), TODAY, 90)
  }

  test('each season of admission goes by what was learned of it, and as many come', () => {
    const [one, seasons] = [made(known()), made(known('autumn', 'winter'))]
    expect(animals(seasons)).toBeCloseTo(animals(one), 10)
    const firstDays = (name: Season) =>
      seasons
        .filter(({ stages }) => stages[1]?.estimate.learned?.key.endsWith(name))
        .map(({ eventsPerDay }) => eventsPerDay.findIndex(events => events > 0))
    // 25 November and ninety days on: the year turns within winter.
    expect(firstDays('autumn')).toEqual([0])
    expect(firstDays('winter')[0]).toBe(6)
    expect(firstDays('winter').length + 1).toBe(seasons.length)
    expect(new Set(seasons.map(({ key }) => key)).size).toBe(seasons.length)
  })

  test('nothing learned: they are told apart as before', () => {
    expect(made(known()).map(({ key }) => key)).toEqual(made(trade).map(({ key }) => key))
  })
})
