import { describe, expect, it } from 'vitest'
import { forecast } from '#lib/forecast/forecast.ts'
import type { Outlook } from '#lib/plan/model.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { inCareTomorrow, moveProbability, stayTable } from '#lib/plan/stay-table.ts'
import {
  forecastInput,
  openForecast,
  POOLS,
  question,
  resident,
  withCentre,
} from '#tests/support/placement.ts'

const busy = outlookOf(
  openForecast([
    resident('a', 'hospital-cage', 'ash/hospital-cage', 12),
    resident('b', 'hospital-cage', 'ash/hospital-cage', 25),
    resident('c', 'flight-aviary', 'ash/flight-aviary', 20),
  ]),
)
const asked = question()

describe('stayTable', () => {
  it('takes tonight’s place from the list of free ones, not from the forecast', () => {
    const [first] = stayTable(asked, busy, 'tonight').stages
    expect(first![0]).toMatchObject({ onArrival: 0, chanceOfPlace: 1 })
    const full = stayTable(withCentre(asked, 'ash', { freeTonight: [] }), busy, 'tonight').stages[0]![0]!
    expect(full).toMatchObject({ onArrival: 1, chanceOfPlace: 0 })
    expect(full.after).toBe(first![0]!.after)
  })

  it('sums survival times price over the days after arrival', () => {
    const { walk, stages } = stayTable(asked, busy, 'tonight')
    const prices = busy.prices('ash/hospital-cage', asked.animals.stages[0]!.needs[0], 1)
    const byHand = walk[0]!.present.reduce((sum, p, day) => sum + (day === 0 ? 0 : p * prices[day]!), 0)
    expect(stages[0]![0]!.after).toBeCloseTo(byHand + walk[0]!.daysBeyond * prices[59]!, 12)
  })

  it('averages the chance of a place over the day of entry', () => {
    const { walk, stages } = stayTable(asked, busy, 'tonight')
    const prices = busy.prices('ash/flight-aviary', asked.animals.stages[1]!.needs[0], 1)
    const { entered, reachProbability } = walk[1]!
    const within = entered.reduce((sum, p) => sum + p, 0)
    const free = entered.reduce((sum, p, day) => sum + p * (1 - prices[day]!), 0)
    const byHand = (free + (reachProbability - within) * (1 - prices[59]!)) / reachProbability
    expect(stages[1]![0]!.chanceOfPlace).toBeCloseTo(byHand, 9)
    expect(stages[1]![1]!.chanceOfPlace).toBeCloseTo(1, 12)
  })

  it('counts every day in full where there is no housing', () => {
    const homes = asked.centres[0]!.homes.with(1, null)
    const table = stayTable(withCentre(asked, 'ash', { homes }), busy, 'tonight')
    const { present, daysBeyond } = table.walk[1]!
    const [, second] = table.stages
    expect(second![0]!).toMatchObject({ hasHousing: false, chanceOfPlace: 0 })
    expect(second![0]!.after).toBeCloseTo(present.reduce((sum, p) => sum + p, 0) + daysBeyond, 9)
  })

  it('weighs tomorrow’s arrival by tomorrow’s price, and leaves tonight out', () => {
    for (const mode of ['after a vet', 'tomorrow'] as const) {
      const table = stayTable(withCentre(asked, 'ash', { freeTonight: [] }), busy, mode)
      const [price] = busy.prices('ash/hospital-cage', asked.animals.stages[0]!.needs[0], 1).slice(1)
      expect(table.stages[0]![0]!.onArrival).toBeCloseTo(table.walk[0]!.present[1]! * price!, 12)
      expect(table.arrivalDay).toBe(1)
    }
  })

  it('shares the free places of tonight among litter-mates', () => {
    const three = { ...asked, animals: { ...asked.animals, count: 3 } }
    const [first] = stayTable(three, busy, 'tonight').stages
    expect(first![0]!.onArrival).toBe(1)
    expect(first![0]!.chanceOfPlace).toBeCloseTo(2 / 3, 12)
  })

  it('never falls when a pool is fuller', () => {
    const outlook = (residents: number): Outlook =>
      outlookOf(
        forecast(
          forecastInput(
            POOLS,
            Array.from({ length: residents }, (_, i) =>
              resident(`r${i}`, 'hospital-cage', 'ash/hospital-cage', 15),
            ),
          ),
        ),
      )
    const after = [0, 1, 2, 3, 4].map(load => stayTable(asked, outlook(load), 'tonight').stages[0]![0]!.after)
    expect(after).toEqual([...after].sort((a, b) => a - b))
    expect(after[4]).toBeGreaterThan(after[0]!)
  })

  it('refuses a stay without stages', () => {
    const none = { ...asked, animals: { ...asked.animals, stages: [] } }
    expect(() => stayTable(none, busy, 'tonight')).toThrow('a stay needs a stage')
  })
})

describe('moveProbability', () => {
  it('is that of at least one of them going on', () => {
    expect(moveProbability(1, 0.8)).toBeCloseTo(0.8, 12)
    expect(moveProbability(3, 0.8)).toBeCloseTo(1 - 0.2 ** 3, 12)
    expect(moveProbability(2, 1 + 1e-12)).toBe(1)
  })
})

describe('inCareTomorrow', () => {
  it('is that of at least one of them still being in any stage', () => {
    const { walk } = stayTable(asked, busy, 'tonight')
    const one = walk[0]!.present[0]! + walk[1]!.present[0]!
    expect(inCareTomorrow(1, walk)).toBeCloseTo(one, 12)
    expect(inCareTomorrow(2, walk)).toBeCloseTo(1 - (1 - one) ** 2, 12)
  })
})
