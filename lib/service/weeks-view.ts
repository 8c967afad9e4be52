/**
 * What the pictures of Weeks ahead are drawn from: fans, capacity with its reasons, classes of the network.
 * Promise: every figure is read from the forecast it is handed; nothing is estimated or rounded here. Days are day
 * numbers, index 0 of what lies ahead is today; chances in [0, 1]; quantities are enclosures.
 */
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import type { HousingType } from '#lib/domain/housing.ts'
import { type Forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import type { PoolForecast, ThresholdForecast } from '#lib/forecast/pool-forecast.ts'
import { listTightDays, shortInAll, worstDay } from '#lib/forecast/tight-days.ts'
import { groupBy } from '#lib/kernel/group-by.ts'
import { opensWords, shutsWords } from '#lib/words/weeks-why.ts'

export type FanDayShown = {
  readonly q10: number
  readonly q25: number
  readonly median: number
  readonly q75: number
  readonly q90: number
}

export type CapacityChange = {
  readonly fromDay: DayNumber
  readonly places: number
  readonly reason?: string
}

/** What a fan is drawn from. */
export type FanShown = {
  readonly todayDay: DayNumber
  readonly past: readonly number[]
  readonly ahead: readonly FanDayShown[]
  readonly capacity: readonly CapacityChange[]
  readonly shortByDay: readonly number[]
}

/** A closure by day: shut at the midnights that end `from` to `until` - 1; `until` null while no end is known. */
export type ShutDays = {
  readonly enclosure: string
  readonly reason: string
  readonly from: DayNumber
  readonly until: DayNumber | null
}

/** One class of the network: housing of one type at one centre. */
export type ClassShown = {
  readonly poolId: string
  readonly centreId: number
  readonly centre: string
  readonly housing: HousingType
  readonly fan: FanShown
  readonly tonight: number
  readonly worst: { readonly day: DayNumber; readonly chance: number }
  readonly tightDays: number
  /** Over the whole horizon. */
  readonly placeDaysShort: number
}

export type SizeShown = {
  readonly size: number
  readonly tonight: number
  readonly worst: { readonly day: DayNumber; readonly chance: number }
}

/** No rows: a class over the first `days` days. */
export function classShown(
  made: Forecast,
  pool: { readonly id: string; readonly centreId: string; readonly housing: HousingType },
  centre: string,
  { days, tightFrom }: { readonly days: number; readonly tightFrom: number },
): ClassShown {
  const { today } = made.input
  const found = poolForecast(getDemand(made, pool.id))
  const worst = worstDay(found.shortByDay, days)
  const [whole] = found.thresholds
  return {
    poolId: pool.id,
    centreId: Number(pool.centreId),
    centre,
    housing: pool.housing,
    fan: fanShown(found, today, days),
    tonight: whole?.capacityByDay[0] ?? 0,
    worst: { day: today + worst.day, chance: worst.chance },
    tightDays: listTightDays(found.shortByDay, tightFrom, days).length,
    placeDaysShort: shortInAll(made, [pool.id]),
  }
}

/** No rows: the fan of a whole pool over the first `days` days, with its capacity as it changes. */
export function fanShown({ thresholds, shortByDay }: PoolForecast, today: DayNumber, days: number): FanShown {
  const [whole] = thresholds
  return {
    todayDay: today,
    past: [],
    ahead: whole === undefined ? [] : aheadOf(whole, days),
    capacity: whole === undefined ? [] : changesOf([...whole.capacityByDay.slice(0, days)], today, () => ''),
    shortByDay: [...shortByDay.slice(0, days)],
  }
}

/** No rows: the same fan after its past nights, each change of capacity with the closure that makes it. */
export function fanWithPast(
  fan: FanShown,
  inUse: readonly number[],
  usable: { readonly enclosures: number; readonly aheadByDay: readonly number[] },
  shut: readonly ShutDays[],
): FanShown {
  const first = fan.todayDay - inUse.length
  const past = inUse.map((_, i) => usable.enclosures - shutOn(shut, first + i))
  return {
    ...fan,
    past: inUse,
    capacity: changesOf([...past, ...usable.aheadByDay], first, day => changeReason(shut, day)),
  }
}

/** No rows: how many enclosures a closure keeps shut at the midnight that ends a day; each counts once. */
export function shutOn(shut: readonly ShutDays[], day: DayNumber): number {
  return new Set(shut.filter(one => isShut(one, day)).map(({ enclosure }) => enclosure)).size
}

/** No rows: a closure in days of the network's calendar. */
export function shutDays(
  span: {
    readonly enclosure: string
    readonly reason: string
    readonly startsAt: Date
    readonly endsAt: Date | null
  },
  zone: string,
): ShutDays {
  return {
    enclosure: span.enclosure,
    reason: span.reason,
    from: dayOfInstant(span.startsAt, zone),
    until: span.endsAt === null ? null : dayOfInstant(span.endsAt, zone),
  }
}

/** No rows: each size by itself: enclosures of it or larger against what needs them. */
export function sizesShown({ thresholds }: PoolForecast, today: DayNumber, days: number): SizeShown[] {
  return thresholds.map(({ size, capacityByDay, shortByDay }) => {
    const worst = worstDay(shortByDay, days)
    return {
      size,
      tonight: capacityByDay[0] ?? 0,
      worst: { day: today + worst.day, chance: worst.chance },
    }
  })
}

/** No rows: the class with the largest chance of being short on any day shown; of equals the one shorter in all. */
export function tightestOf(classes: readonly ClassShown[]): ClassShown | undefined {
  return classes.toSorted((a, b) => b.worst.chance - a.worst.chance || b.placeDaysShort - a.placeDaysShort)[0]
}

function isShut({ from, until }: ShutDays, day: DayNumber): boolean {
  return from <= day && (until === null || day < until)
}

function aheadOf(whole: ThresholdForecast, days: number): FanDayShown[] {
  const on = (byDay: Int32Array, d: number) => byDay[d] ?? 0
  return Array.from({ length: Math.min(days, whole.p50ByDay.length) }, (_, d) => ({
    q10: on(whole.p10ByDay, d),
    q25: on(whole.p25ByDay, d),
    median: on(whole.p50ByDay, d),
    q75: on(whole.p75ByDay, d),
    q90: on(whole.p90ByDay, d),
  }))
}

function changesOf(
  placesByDay: readonly number[],
  first: DayNumber,
  reasonOn: (day: DayNumber) => string,
): CapacityChange[] {
  return placesByDay.flatMap((places, i) => {
    if (i > 0 && places === placesByDay[i - 1]) return []
    const reason = i === 0 ? '' : reasonOn(first + i)
    return [{ fromDay: first + i, places, ...(reason !== '' && { reason }) }]
  })
}

/** What shuts and what opens that day, in words. */
function changeReason(shut: readonly ShutDays[], day: DayNumber): string {
  const shuts = groupBy(
    shut.filter(({ from, until }) => from === day && until !== from),
    ({ reason }) => reason,
  )
  const opens = shut.filter(({ from, until }) => until === day && until !== from)
  return [
    ...[...shuts].map(([reason, same]) =>
      shutsWords(
        same.map(({ enclosure }) => enclosure),
        reason,
      ),
    ),
    ...(opens.length === 0 ? [] : [opensWords(opens.map(({ enclosure }) => enclosure))]),
  ].join('; ')
}
