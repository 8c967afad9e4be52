import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { SEASONS } from '#lib/domain/stage-cell.ts'
import { learnMix, MIX_WEIGHT, mixWeight } from '#lib/learn/arrival-mix.ts'

const came = (date: string, planIds: string[] | null, times = 1, animals = 1) =>
  Array.from({ length: times }, () => ({ day: dayOfDate(date), centreId: 1, animals, planIds }))
const shareIn = (mix: ReturnType<typeof learnMix>, season: (typeof SEASONS)[number], planIds: string[]) =>
  mix[season].find(one => String(one.planIds) === String(planIds))?.share

describe('the plans that a group goes by', () => {
  it('are the usual one where nobody came, or none has a plan', () => {
    for (const records of [[], came('2024-07-01', null, 9)]) {
      for (const season of SEASONS) expect(learnMix(records)[season]).toEqual([{ planIds: [], share: 1 }])
    }
  })

  it('follow a season by its own records and, fainter, by the other seasons, each told once', () => {
    const mix = learnMix(came('2024-07-01', ['orphan'], 40))
    expect(shareIn(mix, 'summer', ['orphan'])).toBeCloseTo(40 / (40 + MIX_WEIGHT), 12)
    expect(shareIn(mix, 'winter', ['orphan'])).toBeCloseTo(40 / (40 + MIX_WEIGHT), 12)
    const both = learnMix([...came('2024-07-01', ['orphan'], 40), ...came('2024-01-10', ['shot'], 45)])
    const yearly = 40 / (40 + MIX_WEIGHT)
    expect(shareIn(both, 'winter', ['orphan'])).toBeCloseTo((MIX_WEIGHT * yearly) / (45 + MIX_WEIGHT), 12)
  })

  it('are shares of animals that sum to 1, and weigh as many as arrivals came', () => {
    const records = [...came('2024-07-01', ['orphan'], 10, 4), ...came('2024-07-02', ['struck'], 10)]
    const mix = learnMix(records)
    // 40 of 50 animals, on 20 arrivals.
    expect(shareIn(mix, 'summer', ['orphan'])).toBeCloseTo((20 * 0.8) / (20 + MIX_WEIGHT), 12)
    for (const season of SEASONS)
      expect(mix[season].reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
    expect(mixWeight(records)).toEqual({
      winter: MIX_WEIGHT,
      spring: MIX_WEIGHT,
      summer: 20 + MIX_WEIGHT,
      autumn: MIX_WEIGHT,
    })
  })

  it('say how many of those who go by them are young, where records tell', () => {
    const records = [
      ...came('2024-07-01', ['orphan'], 20, 3).map(one => ({ ...one, young: 3 })),
      ...came('2024-01-01', ['orphan'], 20, 1).map(one => ({ ...one, young: 0 })),
      ...came('2024-07-01', ['struck'], 40).map(one => ({ ...one, young: null })),
    ]
    const mix = learnMix(records)
    expect(mix.winter.find(({ planIds }) => planIds[0] === 'orphan')?.young).toBe(0.75)
    expect(mix.summer.filter(plan => 'young' in plan)).toHaveLength(1)
  })

  it('leave rare plans to the usual one, whatever the order of what was combined', () => {
    const records = [
      ...came('2024-07-01', ['a', 'b'], 30),
      ...came('2024-07-01', ['b', 'a'], 30),
      ...came('2024-07-01', ['rare'], 2),
    ]
    const mix = learnMix(records)
    expect(mix.summer).toHaveLength(2)
    expect(mix.summer[1]?.share).toBeCloseTo(60 / (62 + MIX_WEIGHT), 12)
    expect(mix.summer[0]?.share).toBeCloseTo((2 + MIX_WEIGHT) / (62 + MIX_WEIGHT), 12)
    expect(learnMix(came('2024-07-01', ['rare'], 9)).summer).toEqual([{ planIds: [], share: 1 }])
  })
})
