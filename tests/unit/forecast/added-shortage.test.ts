import { expect, test } from 'vitest'
import { addedShortage, shortageAddedBy } from '#lib/forecast/added-shortage.ts'
import { forecast, getDemand, poolForecast, price } from '#lib/forecast/forecast.ts'
import { addTrial } from '#lib/numerics/poisson-binomial.ts'
import { newWork } from '#lib/numerics/work.ts'
import { input, itinerary, pool, stage, TODAY } from '../../support/forecasting.ts'

function pmfOf(chances: readonly number[]): Float64Array {
  const pmf = new Float64Array(chances.length + 2)
  pmf[0] = 1
  let top = 0
  for (const p of chances) top = addTrial(pmf, 0, top, p, newWork())
  return pmf
}

const OTHERS = pmfOf([0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3])

test('one animal among seven others and four places', () => {
  expect(addedShortage(OTHERS, pmfOf([0.6]), 4)).toBeCloseTo(0.436668, 12)
})

test('a litter of three, each by its own luck', () => {
  expect(addedShortage(OTHERS, pmfOf([0.9, 0.6, 0.6]), 4)).toBeCloseTo(1.770637584, 12)
})

test('three that move together', () => {
  expect(addedShortage(OTHERS, Float64Array.of(0.4, 0, 0, 0.6), 4)).toBeCloseTo(1.5865176, 12)
})

test('is the difference of two expected shortages', () => {
  const short = (pmf: Float64Array, places: number) =>
    pmf.reduce((sum, p, n) => sum + p * Math.max(0, n - places), 0)
  const all = pmfOf([0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.9, 0.6, 0.6])
  for (let places = 0; places < 12; places++) {
    const rise = short(all, places) - short(OTHERS, places)
    expect(addedShortage(OTHERS, pmfOf([0.9, 0.6, 0.6]), places)).toBeCloseTo(rise, 13)
  }
})

const DAYS = 30
const PATH = [stage('cages'), stage('aviary', {}, { stock: 3 })]
const made = forecast(
  input({
    pools: [pool('cages', [3], DAYS), pool('aviary', [0, 1], DAYS)],
    itineraries: [0, 2, 5, 9, 14].map(age => itinerary(`c${age}`, PATH, { enteredStageOn: TODAY - age })),
  }),
)

test('over the network it is the chance of being there times the price, summed', () => {
  const newcomer = itinerary('new', PATH, { enteredStageOn: TODAY })
  const added = shortageAddedBy(made, newcomer)
  const grown = forecast({ ...made.input, itineraries: [...made.input.itineraries, newcomer] })
  for (const [poolId, index] of [
    ['cages', 0],
    ['aviary', 1],
  ] as const) {
    const prices = price(made, poolId, PATH[index]!.need)
    const here = getDemand(grown, poolId)
      .classes.flatMap(({ companies }) => companies.flatMap(({ members }) => members))
      .find(member => member.casualtyId === 'new')!.presence
    for (let d = 0; d < DAYS; d++) expect(added.get(poolId)![d]).toBeCloseTo(here[d]! * prices[d]!, 12)
  }
})

test('a litter adds the rise of the expected shortage that a rebuild finds', () => {
  const litter = itinerary('new', PATH, { enteredStageOn: TODAY, count: 3 })
  const added = shortageAddedBy(made, litter)
  const grown = forecast({ ...made.input, itineraries: [...made.input.itineraries, litter] })
  const after = poolForecast(getDemand(grown, 'aviary')).expectedShortByDay
  const before = poolForecast(getDemand(made, 'aviary')).expectedShortByDay
  for (let d = 0; d < DAYS; d++) expect(added.get('aviary')![d]).toBeCloseTo(after[d]! - before[d]!, 12)
  expect(Math.max(...added.get('aviary')!)).toBeGreaterThan(0.02)
})
