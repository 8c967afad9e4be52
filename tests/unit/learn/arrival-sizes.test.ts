import { expect, it } from 'vitest'
import { learnSizes, SIZES_WEIGHT } from '#lib/learn/arrival-sizes.ts'

const USUAL = [
  { centreId: 1, animalsPerYear: 30, monthShares: Array(12).fill(1 / 12), eventSizes: [0.5, 0.5] },
  { centreId: 2, animalsPerYear: 10, monthShares: Array(12).fill(1 / 12), eventSizes: [1] },
]
const arrival = (day: number, animals: number) => ({ day, centreId: 1, animals, planIds: null })

it('says what the centres entered where nothing came, by how much each sees', () => {
  expect(learnSizes([], USUAL, () => true).young).toEqual([0.625, 0.375])
  expect(learnSizes([], USUAL, () => true).grown).toEqual([1])
  expect(learnSizes([], [], () => true).young).toEqual([1])
})

it('counts each arrival in its own time of the year', () => {
  const records = [arrival(1, 4), arrival(1, 1), arrival(2, 2)]
  const { young, grown } = learnSizes(records, USUAL, day => day === 1)
  const of = SIZES_WEIGHT
  expect(young).toEqual([(0.625 * of + 1) / (of + 2), (0.375 * of) / (of + 2), 0, 1 / (of + 2)])
  expect(grown).toEqual([of / (of + 1), 1 / (of + 1)])
  for (const pmf of [young, grown]) expect(pmf.reduce((a, b) => a + b)).toBeCloseTo(1, 12)
})
