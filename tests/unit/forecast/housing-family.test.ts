import { expect, test } from 'vitest'
import { familyShortage } from '#lib/forecast/housing-family.ts'
import { addTrial } from '#lib/numerics/poisson-binomial.ts'
import { newWork } from '#lib/numerics/work.ts'

const PEN = 0
const POOL = 1
const AVIARY = 2
const TYPES = [
  { chances: [0.9, 0.6, 0.4], servedBy: [PEN] },
  { chances: [0.7, 0.5], servedBy: [POOL] },
  { chances: [0.9, 0.8, 0.7, 0.3], servedBy: [AVIARY] },
  { chances: [0.6, 0.5], servedBy: [AVIARY, PEN] },
  { chances: [0.8, 0.4], servedBy: [POOL, PEN] },
]
const CAPACITIES = [3, 2, 4]

function pmfOf(chances: readonly number[]): Float64Array {
  const pmf = new Float64Array(chances.length + 2)
  pmf[0] = 1
  let top = 0
  for (const p of chances) top = addTrial(pmf, 0, top, p, newWork())
  return pmf.subarray(0, chances.length + 1)
}

function overDemands(visit: (mass: number, demands: readonly number[]) => void): void {
  const pmfs = TYPES.map(({ chances }) => pmfOf(chances))
  const walk = (type: number, mass: number, demands: readonly number[]) => {
    if (type === pmfs.length) visit(mass, demands)
    else for (const [k, p] of pmfs[type]!.entries()) walk(type + 1, mass * p, [...demands, k])
  }
  walk(0, 1, [])
}

test('pens, pools and aviaries that partly stand in for one another', () => {
  let short = 0
  let expected = 0
  overDemands((mass, demands) => {
    const needs = TYPES.map(({ servedBy }, type) => ({ servedBy, demand: demands[type]! }))
    const missing = familyShortage(needs, CAPACITIES)
    if (missing > 0) short += mass
    expected += mass * missing
  })
  expect(short).toBeCloseTo(0.256573752, 12)
  expect(expected).toBeCloseTo(0.34338859296, 11)
})

/** The other way round: animals left over by the largest matching, found by augmenting paths. */
function unmatched(demands: readonly number[]): number {
  const spots = CAPACITIES.flatMap((capacity, kind) => new Array<number>(capacity).fill(kind))
  const holder = spots.map(() => -1)
  const animals = demands.flatMap((demand, type) => new Array<number>(demand).fill(type))
  const seat = (animal: number, tried: Set<number>): boolean =>
    spots.some((kind, spot) => {
      if (tried.has(spot) || !TYPES[animals[animal]!]!.servedBy.includes(kind)) return false
      tried.add(spot)
      if (holder[spot] !== -1 && !seat(holder[spot]!, tried)) return false
      holder[spot] = animal
      return true
    })
  return animals.filter((_, animal) => !seat(animal, new Set())).length
}

test('agrees with the largest matching for every demand that can occur', () => {
  let compared = 0
  overDemands((_, demands) => {
    const needs = TYPES.map(({ servedBy }, type) => ({ servedBy, demand: demands[type]! }))
    expect(familyShortage(needs, CAPACITIES)).toBe(unmatched(demands))
    compared++
  })
  expect(compared).toBe(540)
})

test('refuses more types than it can try', () => {
  const many = Array.from({ length: 17 }, () => ({ demand: 1, servedBy: [0] }))
  expect(() => familyShortage(many, [1])).toThrow('needs may have at most 16 types, got 17')
})
