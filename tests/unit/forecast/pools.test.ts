import { describe, expect, test } from 'vitest'
import type { PlaceNeed } from '#lib/domain/need.ts'
import { findServing, poolId, poolsOf, sizeClassOf } from '#lib/forecast/pools.ts'
import { TODAY } from '#tests/support/forecasting.ts'
import { at, enclosureState, HILL, networkState, SHORE } from '#tests/support/network-state.ts'

const DAYS = 5
const cages = (change: Parameters<typeof networkState>[0] = {}) =>
  poolsOf(networkState(change), TODAY, DAYS).byId.get(poolId(SHORE, 'hospital-cage'))!

describe('what is usable', () => {
  test('is counted by size, the smallest first', () => {
    expect(cages().steps.map(step => [step.size, [...step.capacityByDay]])).toEqual([
      [3, [1, 1, 1, 1, 1]],
      [5, [1, 1, 1, 1, 1]],
    ])
  })

  test('is less on the nights a closure covers, and on no other', () => {
    const closures = [{ enclosureId: 12, startsAt: at(1, 12), endsAt: at(3, 12), reason: 'a loose wire' }]
    const [small, large] = cages({ closures }).steps
    expect([...large!.capacityByDay]).toEqual([1, 0, 0, 1, 1])
    expect([...small!.capacityByDay]).toEqual([1, 1, 1, 1, 1])
  })

  test('is nothing from a closure without an end on; the pool is still there', () => {
    const closures = [11, 12].map(enclosureId => ({
      enclosureId,
      startsAt: at(-9, 9),
      endsAt: null,
      reason: '',
    }))
    expect(cages({ closures }).steps.flatMap(step => [...step.capacityByDay])).toEqual(
      Array(2 * DAYS).fill(0),
    )
  })

  test('does not lose a place twice where two closures meet', () => {
    const closures = [
      { enclosureId: 12, startsAt: at(0, 12), endsAt: at(2, 12), reason: '' },
      { enclosureId: 12, startsAt: at(1, 12), endsAt: at(3, 12), reason: '' },
    ]
    expect([...cages({ closures }).steps[1]!.capacityByDay]).toEqual([0, 0, 0, 1, 1])
  })

  test('rests between animals for the mean time of its enclosures, in whole days', () => {
    const enclosures = [0, 2880].map((turnaroundMin, n) =>
      enclosureState(n, SHORE, 'hospital-cage', { turnaroundMin }),
    )
    expect(cages({ enclosures }).turnaroundDays).toBe(1)
  })
})

test('an aviary counts as the longest flight step it reaches', () => {
  expect(sizeClassOf({ housing: 'flight-aviary', sizeRank: 9, lengthM: 12 })).toBe(10)
  expect(sizeClassOf({ housing: 'flight-aviary', sizeRank: 9, lengthM: 15 })).toBe(15)
  expect(sizeClassOf({ housing: 'flight-aviary', sizeRank: 9, lengthM: 2 })).toBe(2)
  expect(sizeClassOf({ housing: 'hospital-cage', sizeRank: 4, lengthM: 12 })).toBe(4)
})

describe('the pool that serves', () => {
  const pools = poolsOf(networkState(), TODAY, DAYS)
  const need = (change: Partial<PlaceNeed> = {}): PlaceNeed => ({
    stage: 'restricted activity',
    housing: ['hospital-cage'],
    needsIsolation: false,
    sizeRank: 2,
    flightLengthM: 4.8,
    features: [],
    company: 'thrushes',
    companyKey: 'thrushes',
    stock: { 'hospital-cage': 3 },
    preys: 'prey',
    ...change,
  })
  const poolFor = (change: Partial<PlaceNeed>, centre = SHORE) =>
    findServing(pools, centre, need(change))?.poolId

  test('is the first the need would have, else the next', () => {
    expect(poolFor({ housing: ['intensive-care', 'hospital-cage'] })).toBe('1:intensive-care')
    expect(poolFor({ housing: ['hospital-cage', 'intensive-care'] })).toBe('1:hospital-cage')
    expect(poolFor({ housing: ['indoor-pen', 'hospital-cage'] })).toBe('1:hospital-cage')
    expect(poolFor({ housing: ['indoor-pen'] })).toBeUndefined()
  })

  test('has one enclosure that is large or long enough', () => {
    expect(poolFor({ sizeRank: 5 })).toBe('1:hospital-cage')
    expect(poolFor({ sizeRank: 6 })).toBeUndefined()
    const flying = { stage: 'unlimited activity', housing: ['flight-aviary'] } as const
    expect(poolFor({ ...flying, flightLengthM: 12 }, HILL)).toBe('2:flight-aviary')
    expect(poolFor({ ...flying, flightLengthM: 12.1 }, HILL)).toBeUndefined()
  })

  test('is set up for the company', () => {
    expect(poolFor({ company: 'kestrels' })).toBeUndefined()
  })

  test('counts a company as its enclosures are stocked, unlike ones by their mean, rounded down', () => {
    const stocked = (...places: number[]) =>
      findServing(
        poolsOf(
          networkState({
            enclosures: places.map((n, id) =>
              enclosureState(id, SHORE, 'hospital-cage', { stocking: { thrushes: n } }),
            ),
          }),
          TODAY,
          DAYS,
        ),
        SHORE,
        need(),
      )?.need.stock
    expect([stocked(2), stocked(2, 5), stocked(4, 8, 12)]).toEqual([2, 3, 8])
    expect(findServing(pools, SHORE, need({ companyKey: 'alone:7' }))?.need.stock).toBe(1)
  })

  test('is counted at the smallest step that truly serves, with the stock of its housing', () => {
    expect(findServing(pools, SHORE, need({ sizeRank: 4 }))?.need).toEqual({
      housing: 'hospital-cage',
      size: 5,
      company: 'thrushes',
      stock: 3,
    })
    const flying = need({ stage: 'unlimited activity', housing: ['flight-aviary'] })
    expect(findServing(pools, HILL, flying)?.need.size).toBe(10)
  })
})

test('what records leave open goes with the size of its pool', () => {
  const id = poolId(SHORE, 'hospital-cage')
  const plain = poolsOf(networkState(), TODAY, DAYS).byId.get(id)!
  const [first] = plain.steps
  const doubt = { poolId: id, size: first!.size, from: TODAY, varianceByDay: Float64Array.of(1, 2) }
  const pools = poolsOf(networkState(), TODAY, DAYS, (_, make) => make(), [doubt])
  const [own, ...others] = pools.byId.get(id)!.steps
  expect([...own!.doubtByDay!]).toEqual(Array.from({ length: DAYS }, (_, d) => (d === 0 ? 1 : 2)))
  expect(others.every(step => step.doubtByDay === undefined)).toBe(true)
  expect(pools.all.filter(pool => pool.id !== id).every(pool => pool.steps.every(s => !s.doubtByDay))).toBe(
    true,
  )
})
