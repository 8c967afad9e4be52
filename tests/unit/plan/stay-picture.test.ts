import { describe, expect, it } from 'vitest'
import type { PathStop } from '#lib/domain/option.ts'
import type { StageWalk } from '#lib/plan/model.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { entryQuantiles, pathStops, ribbonOf, weakestStop } from '#lib/plan/stay-picture.ts'
import { stayTable } from '#lib/plan/stay-table.ts'
import { openForecast, question, resident, TODAY } from '#tests/support/placement.ts'

function entering(entered: readonly number[], reachProbability: number): StageWalk {
  return {
    entered: Float64Array.from(entered),
    present: new Float64Array(entered.length),
    daysBeyond: 0,
    reachProbability,
  }
}

describe('entryQuantiles', () => {
  it('are of the day of entry given that it is ever entered', () => {
    const walk = entering([0, 0.05, 0.15, 0.2, 0.1], 0.5)
    expect(entryQuantiles(walk, 100)).toEqual({ q10: 101, q25: 102, q50: 103, q75: 103, q90: 104 })
  })

  it('are null beyond the forecast and where it is never entered', () => {
    expect(entryQuantiles(entering([0, 0.3], 0.5), 100)).toEqual({
      q10: 101,
      q25: 101,
      q50: 101,
      q75: null,
      q90: null,
    })
    expect(entryQuantiles(entering([0, 0], 0), 100).q50).toBeNull()
  })
})

describe('a path', () => {
  const asked = question()
  const full = outlookOf(openForecast([resident('long', 'flight-aviary', 'ash/flight-aviary')]))
  const table = stayTable(asked, full, 'tonight')

  it('names each stage with its centre, its dates in order and its chance', () => {
    const stops = pathStops(asked, table, [0, 1])
    expect(stops.map(stop => [stop.stage, stop.centre.name, stop.housing])).toEqual([
      ['restricted activity', 'Ashdown Quay', 'hospital-cage'],
      ['unlimited activity', 'Birchover', 'flight-aviary'],
    ])
    expect(stops[0]!.from.q50).toBe(TODAY)
    expect(stops[0]!.until).toEqual(stops[1]!.from)
    expect(stops[1]!.until.q10!).toBeLessThan(stops[1]!.until.q90!)
    expect(stops[1]!.chanceOfPlace).toBeCloseTo(1, 9)
  })

  it('lies on ground with a hole where a proper place may be missing', () => {
    const ground = ribbonOf(table, [0, 0], TODAY)
    expect(ground.firstDay).toBe(TODAY)
    expect(ground.groundChance[0]).toBeCloseTo(1, 4)
    expect(ground.groundChance.at(-1)!).toBeLessThan(0.3)
    expect(Math.min(...ribbonOf(table, [0, 1], TODAY).groundChance)).toBeCloseTo(1, 6)
    const end = pathStops(asked, table, [0, 0])[1]!.until.q90!
    expect(ground.groundChance).toHaveLength(end - TODAY + 1)
  })

  it('begins tomorrow where the animal is kept till morning', () => {
    expect(ribbonOf(stayTable(asked, full, 'tomorrow'), [0, 1], TODAY).firstDay).toBe(TODAY + 1)
  })
})

describe('weakestStop', () => {
  it('is the stage with the smallest chance, the earlier in a tie', () => {
    const stops = [0.9, 0.4, 0.4].map(chanceOfPlace => ({ chanceOfPlace }) as PathStop)
    expect(weakestStop(stops)).toBe(1)
  })
})
