import { describe, expect, test } from 'vitest'
import { planFor } from '#lib/domain/care-plan-choice.ts'
import { ANY_REASON } from '#lib/domain/condition.ts'
import type { NetworkState } from '#lib/domain/network-state.ts'
import { cellKey } from '#lib/domain/stage-cell.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { type ForecastBasis, forecastInput } from '#lib/forecast/from-network.ts'
import { newInputMemory } from '#lib/forecast/input-memory.ts'
import { TODAY } from '#tests/support/forecasting.ts'
import { learnedOf } from '#tests/support/learned.ts'
import {
  at,
  centreState,
  HILL,
  networkState,
  plannedStage,
  residentState,
  SHORE,
} from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const BLACKBIRD = { species: 'blackbird', group: 'thrushes-starlings', class: 'bird', age: 'adult' } as const
const window = { today: TODAY, horizonDays: 30, shareOfTodayLeft: 0.5, asAt: at(0, 12) }
const { enclosures } = networkState()
/** A network as it is read: every part but its housing is a new object. */
const read = (change: Partial<NetworkState> = {}): NetworkState => ({
  ...structuredClone(networkState({ residents: [7, 8, 9].map(id => residentState(id)) })),
  enclosures,
  ...change,
})
const closure = { enclosureId: 21, startsAt: at(2, 9), endsAt: at(9, 9), reason: 'repair' }
const stopped = centreState(SHORE, {
  stop: { siteState: 'no-movement', coversClass: null, startsAt: at(-1, 9), endsAt: null, reason: 'a case' },
})

const CHANGES: readonly (readonly [string, NetworkState, Partial<typeof window>])[] = [
  ['nothing', read(), {}],
  ['somebody left', read({ residents: [7, 9].map(id => residentState(id)) }), {}],
  ['somebody is ready', read({ residents: [residentState(7, { ready: { no: 1, at: at(0, 9) } })] }), {}],
  ['an enclosure closed', read({ closures: [closure] }), {}],
  ['a centre was stopped', read({ centres: [stopped, centreState(HILL)] }), {}],
  [
    'a centre takes no such group',
    read({ centres: [centreState(SHORE, { takes: [] }), centreState(HILL)] }),
    {},
  ],
  ['more are expected', read({ arrivals: [{ ...networkState().arrivals[0]!, animalsPerYear: 90 }] }), {}],
  ['enclosures were given up', read({ enclosures: enclosures.filter(({ id }) => id !== 23) }), {}],
  ['a day passed', read(), { today: TODAY + 1, asAt: at(1, 12) }],
  ['the horizon is shorter', read(), { horizonDays: 20 }],
]

test('after any change the input is what it would be if nothing had been kept', () => {
  const memory = newInputMemory()
  const there = forecastInput(read(), trade, window, memory)
  for (const [what, state, moment] of CHANGES) {
    const changed = { ...window, ...moment }
    expect(forecastInput(state, trade, changed, memory), what).toEqual(forecastInput(state, trade, changed))
    expect(forecastInput(read(), trade, window, memory), `${what}, and back`).toEqual(there)
  }
})

describe('what is as it was is the same object', () => {
  const parts = ({ input }: ForecastBasis) => ({
    pools: new Map(input.pools.map(one => [one.id, one])),
    ways: new Map(input.itineraries.map(one => [one.casualtyId, one])),
    streams: input.arrivals,
  })

  test('all of it when nothing changed', () => {
    const memory = newInputMemory()
    const before = forecastInput(read(), trade, window, memory)
    const after = forecastInput(read(), trade, window, memory)
    expect(parts(before).ways.size).toBe(3)
    expect(parts(before).streams.length).toBeGreaterThan(0)
    expect(after.pools).toBe(before.pools)
    expect(after.input.arrivals).toBe(before.input.arrivals)
    for (const [id, way] of parts(before).ways) expect(parts(after).ways.get(id)).toBe(way)
  })

  test('the ways of the others when one animal changed; the other pools when one enclosure closed', () => {
    const memory = newInputMemory()
    const before = parts(forecastInput(read(), trade, window, memory))
    const residents = [7, 8, 9].map(id =>
      residentState(id, id === 8 ? { began: { no: 2, at: at(0, 9) } } : {}),
    )
    const after = parts(forecastInput(read({ residents, closures: [closure] }), trade, window, memory))
    const kept = <K, V>(was: ReadonlyMap<K, V>, is: ReadonlyMap<K, V>) =>
      [...was.keys()].filter(key => was.get(key) === is.get(key))
    expect(kept(before.ways, after.ways)).toEqual(['7', '9'])
    const pools = [...before.pools.keys()]
    expect(kept(before.pools, after.pools)).toEqual(pools.filter(id => id !== `${HILL}:hospital-cage`))
    expect(after.streams).toBe(before.streams)
  })

  test('the ways of one learning; all whose stage was learned anew, when it was', () => {
    const { plan } = planFor(trade, BLACKBIRD, [{ condition: ANY_REASON }])
    const stages = plan.stages.map((stage, no) =>
      plannedStage(no + 1, stage.stage, stage.housing, { estimate: stage.estimate }),
    )
    const residents = () =>
      [7, 8].map(id => residentState(id, { planIds: [...plan.planIds], stages: structuredClone(stages) }))
    const learning = (run: string): Trade => {
      const one = learnedOf({ passes: [0.5, 0.25] }, { key: cellKey(plan.planIds, 2, null), run })
      return { ...trade, learned: new Map([[one.key, one]]) }
    }
    const memory = newInputMemory()
    const made = (knowledge: Trade) =>
      parts(forecastInput(read({ residents: residents() }), knowledge, window, memory))
    const before = made(trade)
    const after = made(learning('run 1'))
    expect(after.ways.get('7')?.stages.map(one => one.estimate.learned?.run)).toEqual(
      plan.stages.map((_, no) => (no === 1 ? 'run 1' : undefined)),
    )
    expect(after.ways.get('7')).not.toBe(before.ways.get('7'))
    expect(after.streams.some(({ stages: path }) => path[1]?.estimate.learned !== undefined)).toBe(true)
    // Read again, setup changed in between: other objects of the same run.
    expect(made(learning('run 1')).ways.get('7')).toBe(after.ways.get('7'))
    expect(after.ways.get('8')?.stages[1]?.estimate).toBe(after.ways.get('7')?.stages[1]?.estimate)
    expect(made(learning('run 2')).ways.get('7')?.stages[1]?.estimate.learned?.run).toBe('run 2')
    expect(made(trade).ways.get('7')).toBe(before.ways.get('7'))
  })

  test('one estimate for all who have the same', () => {
    const { input } = forecastInput(read(), trade, window, newInputMemory())
    const firsts = new Set(input.itineraries.map(({ stages }) => stages[0]?.estimate))
    expect(input.itineraries.length).toBe(3)
    expect(firsts.size).toBe(1)
  })
})
