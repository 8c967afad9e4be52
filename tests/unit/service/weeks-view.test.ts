import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import {
  type ClassShown,
  classShown,
  fanShown,
  fanWithPast,
  shutDays,
  shutOn,
  sizesShown,
  tightestOf,
} from '#lib/service/weeks-view.ts'
import { input, itinerary, pool, stage, TODAY } from '#tests/support/forecasting.ts'

const DAYS = 30
const made = forecast(
  input({
    horizonDays: DAYS,
    pools: [pool('1', [1, 1], DAYS, { centreId: '7' }), pool('2', [5], DAYS, { centreId: '8' })],
    itineraries: ['a', 'b', 'c'].map(id => itinerary(id, [stage('1')])),
  }),
)
const found = poolForecast(getDemand(made, '1'))

describe('a class', () => {
  const shown = classShown(made, made.input.pools[0]!, 'Hollin Ness', { days: 14, tightFrom: 0.2 })

  it('reads the forecast over the days shown, and what is short over all of them', () => {
    expect(shown).toMatchObject({ poolId: '1', centreId: 7, centre: 'Hollin Ness', tonight: 2 })
    expect(shown.worst.chance).toBe(Math.max(...found.shortByDay.slice(0, 14)))
    expect(shown.tightDays).toBe(found.shortByDay.slice(0, 14).filter(p => p >= 0.2).length)
    expect(shown.placeDaysShort).toBeCloseTo(
      found.expectedShortByDay.reduce((sum, short) => sum + short, 0),
      12,
    )
    expect(shown.fan.ahead).toHaveLength(14)
    expect(shown.fan.ahead[3]?.median).toBe(found.thresholds[0]?.p50ByDay[3])
    expect(shown.fan.capacity).toEqual([{ fromDay: TODAY, places: 2 }])
  })

  it('is the tightest by its worst day, of equals by what is short', () => {
    const one = (poolId: string, chance: number, placeDaysShort: number): ClassShown => ({
      ...shown,
      poolId,
      worst: { day: TODAY, chance },
      placeDaysShort,
    })
    expect(tightestOf([one('x', 0.1, 9), one('y', 0.3, 1), one('z', 0.3, 2)])?.poolId).toBe('z')
    expect(tightestOf([])).toBeUndefined()
  })

  it('has each size with what is that large or larger', () => {
    expect(sizesShown(found, TODAY, 14).map(({ size, tonight }) => [size, tonight])).toEqual([
      [2, 2],
      [3, 1],
    ])
  })
})

describe('closures by day', () => {
  const zone = 'Europe/London'
  const repair = shutDays(
    {
      enclosure: 'North flight',
      reason: 'Netting torn',
      startsAt: new Date('2026-11-20T09:00:00Z'),
      endsAt: new Date('2026-12-01T09:00:00Z'),
    },
    zone,
  )

  it('shut the midnights that end their days, and not the one of the day they end', () => {
    expect(repair.from).toBe(dayOfDate('2026-11-20'))
    expect(repair.until).toBe(dayOfDate('2026-12-01'))
    const days = ['2026-11-19', '2026-11-20', '2026-11-30', '2026-12-01'].map(dayOfDate)
    expect(days.map(day => shutOn([repair], day))).toEqual([0, 1, 1, 0])
  })

  it('count an enclosure once, however many closures it has', () => {
    expect(shutOn([repair, { ...repair, reason: 'Paint' }], repair.from)).toBe(1)
    expect(shutOn([{ ...repair, until: null }], dayOfDate('2030-01-01'))).toBe(1)
  })

  it('change the capacity of past and coming days, each with its reason', () => {
    const fan = fanShown(found, TODAY, 10)
    const inUse = Array.from({ length: 8 }, () => 1)
    const ahead = [1, 1, 1, 1, 1, 1, 2, 2, 2, 2]
    const drawn = fanWithPast(fan, inUse, { enclosures: 2, aheadByDay: ahead }, [repair])
    expect(drawn.past).toEqual(inUse)
    expect(drawn.capacity).toEqual([
      { fromDay: TODAY - 8, places: 2 },
      { fromDay: dayOfDate('2026-11-20'), places: 1, reason: 'North flight shut: netting torn' },
      { fromDay: dayOfDate('2026-12-01'), places: 2, reason: 'North flight open again' },
    ])
  })

  it('name several enclosures by their number', () => {
    const three = ['A', 'B', 'C'].map(enclosure => ({ ...repair, enclosure }))
    const drawn = fanWithPast(
      fanShown(found, TODAY, 1),
      Array.from({ length: 8 }, () => 0),
      { enclosures: 5, aheadByDay: [2] },
      three,
    )
    expect(drawn.capacity[1]).toMatchObject({ places: 2, reason: '3 enclosures shut: netting torn' })
  })
})
