import { expect, test } from 'vitest'
import { forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import { newForecastMemory } from '#lib/forecast/forecast-memory.ts'
import type { ForecastInput } from '#lib/forecast/model.ts'
import { newWork } from '#lib/numerics/work.ts'
import { referenceNetwork } from '#tests/bench/reference-network.ts'
import { input, itinerary, OVERWINTERING, pool, stage, stream } from '#tests/support/forecasting.ts'

const DAYS = 30
const cage = pool('cage', [2, 1], DAYS)
const aviary = pool('aviary', [3], DAYS, { turnaroundDays: 1 })
const sharing = { company: 'thrushes', stock: 3 }
const inCage = [stage('cage', {}, sharing), stage('aviary', {}, sharing)]
const inAviary = [stage('aviary', OVERWINTERING, sharing)]
const whole = input({
  horizonDays: DAYS,
  pools: [cage, aviary],
  itineraries: [itinerary('1', inCage), itinerary('2', inAviary), itinerary('3', [stage('cage')])],
  arrivals: [
    stream('a', inCage, 0.4, DAYS, [0.5, 0.5]),
    stream('b', [stage('cage', {}, { company: 'arrival:x', stock: 2 })], 0.2, DAYS, [0.2, 0.3, 0.5]),
  ],
})

const reference = referenceNetwork({ centres: 2, inCare: 40, arrivalsPerDay: 4, days: 16 }, 3)

/** What happens to a network, one thing after another. */
function* changes(from: ForecastInput): Generator<ForecastInput> {
  const [first, second, ...others] = from.itineraries
  yield from
  yield { ...from, itineraries: [second!, ...others] }
  yield { ...from, itineraries: [second!, first!, ...others] }
  yield { ...from, itineraries: [{ ...first!, isReady: true }, second!, ...others] }
  yield { ...from, itineraries: [...from.itineraries, { ...first!, casualtyId: 'new' }] }
  yield { ...from, arrivals: from.arrivals.slice(1) }
  yield { ...from, shareOfTodayLeft: 0.25 }
  yield { ...from, today: from.today + 1 }
  yield { ...from, pools: from.pools.map(one => ({ ...one, turnaroundDays: one.turnaroundDays + 1 })) }
  yield {
    ...from,
    pools: from.pools.map(one => ({
      ...one,
      steps: [...one.steps, { ...one.steps[0]!, size: one.steps.at(-1)!.size + 1 }],
    })),
  }
  yield { ...from, pools: from.pools.map(one => ({ ...one, steps: one.steps.slice(0, 1) })) }
  yield { ...from, horizonDays: from.horizonDays - 5 }
  yield from
}

test.each([
  ['a small network', whole],
  ['the reference network', reference],
])('after any change %s is forecast as if nothing had been kept, to the last digit', (_, from) => {
  const memory = newForecastMemory()
  let steps = 0
  for (const changed of changes(from)) {
    const kept = forecast(changed, newWork(), memory)
    const fresh = forecast(changed)
    expect([...kept.demands.keys()]).toEqual([...fresh.demands.keys()])
    for (const [id, demand] of fresh.demands) {
      expect(getDemand(kept, id)).toEqual(demand)
      expect(poolForecast(getDemand(kept, id))).toEqual(poolForecast(demand))
    }
    steps++
  }
  expect(steps).toBe(13)
})

test('a demand whose claims are the same keeps its identity, at no cost; the others are made anew', () => {
  const memory = newForecastMemory()
  const before = forecast(reference, newWork(), memory)
  const [first, ...others] = reference.itineraries
  const touched = new Set(first!.stages.map(({ poolId }) => poolId))
  const work = newWork()
  const after = forecast({ ...reference, itineraries: others }, work, memory)
  const isKept = (id: string) => after.demands.get(id) === before.demands.get(id)
  const kept = [...before.demands.keys()].filter(isKept)
  expect(kept.length).toBe(before.demands.size - touched.size)
  expect(kept.filter(id => touched.has(id))).toEqual([])
  const fresh = newWork()
  forecast(reference, fresh)
  expect(work.multiplyAdds).toBeGreaterThan(0)
  expect(work.multiplyAdds).toBeLessThan(fresh.multiplyAdds / 5)
  const nothing = newWork()
  forecast({ ...reference, itineraries: others }, nothing, memory)
  expect(nothing.multiplyAdds).toBe(0)
})

test('in a demand that changed, companies that did not are kept', () => {
  const memory = newForecastMemory()
  const companiesOf = (id: string, made: ReturnType<typeof forecast>) =>
    getDemand(made, id).classes.flatMap(({ companies }) => companies)
  const before = companiesOf('cage', forecast(whole, newWork(), memory))
  const without = { ...whole, itineraries: whole.itineraries.slice(1) }
  const after = companiesOf('cage', forecast(without, newWork(), memory))
  const kept = after.filter(company => before.includes(company)).map(({ key }) => key)
  expect(before.map(({ key }) => key)).toEqual(['thrushes|3', 'singly'])
  expect(kept).toEqual(['singly'])
})

test('a path through an unknown pool is refused with a memory too', () => {
  const memory = newForecastMemory()
  forecast(whole, newWork(), memory)
  expect(() => forecast({ ...whole, pools: [cage] }, newWork(), memory)).toThrow(RangeError)
})
