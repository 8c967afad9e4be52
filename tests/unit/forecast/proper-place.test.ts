import { expect, test } from 'vitest'
import { forecast, price } from '#lib/forecast/forecast.ts'
import { occupancyOf } from '#lib/forecast/occupancy.ts'
import { meanPrice, properPlaceChance } from '#lib/forecast/proper-place.ts'
import { input, itinerary, pool, stage, TODAY } from '../../support/forecasting.ts'

const DAYS = 60
const PATH = [stage('cages'), stage('aviary')]
const made = forecast(
  input({
    horizonDays: DAYS,
    pools: [pool('cages', [3], DAYS), pool('aviary', [2], DAYS)],
    itineraries: [0, 2, 5, 9].map(age => itinerary(`c${age}`, PATH, { enteredStageOn: TODAY - age })),
  }),
)
const wayOf = (id: string, enteredStageOn: number) =>
  occupancyOf(itinerary(id, PATH, { enteredStageOn }), { ...made.input, horizonDays: 400 })

test('is the chance of a free place on the day of entry, averaged over that day', () => {
  const { stages } = wayOf('new', TODAY)
  const prices = price(made, 'aviary', PATH[1]!.need)
  const { entersByDay, reachProbability } = stages[1]!
  let expected = 0
  for (let d = 0; d < 400; d++)
    expected += (entersByDay[d]! / reachProbability) * (1 - prices[Math.min(d, DAYS - 1)]!)
  expect(properPlaceChance(made, stages[1]!)).toBeCloseTo(expected, 6)
})

test("for the stage it comes into it is today's chance", () => {
  const [here] = occupancyOf(itinerary('new', PATH, { enteredStageOn: TODAY }), made.input).stages
  expect(properPlaceChance(made, here!)).toBeCloseTo(1 - price(made, 'cages', PATH[0]!.need)[0]!, 14)
})

test('an animal of the forecast does not compete with itself', () => {
  const { stages } = wayOf('c2', TODAY - 2)
  expect(properPlaceChance(made, stages[1]!, 'c2')).toBeGreaterThan(properPlaceChance(made, stages[1]!))
})

test('a place that does not exist on the path is never free', () => {
  const [here] = occupancyOf(itinerary('a', [stage(null)]), made.input).stages
  expect(properPlaceChance(made, here!)).toBe(0)
})

test('days beyond the prices are judged by the last one', () => {
  const { stages } = wayOf('new', TODAY)
  const rising = Float64Array.of(0, 0, 0, 0.5)
  expect(meanPrice(rising, stages[1]!)).toBeGreaterThan(0.45)
  expect(meanPrice(rising, stages[1]!)).toBeLessThan(0.5)
})
