/**
 * Where a day stands on a picture's axis. Units: per cent of its width, two decimals; outside the axis the number
 * lies outside 0 to 100.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { RibbonAxis } from './ribbon-data.ts'

export function percentOf(day: DayNumber, axis: RibbonAxis): number {
  return Math.round((10000 * (day - axis.fromDay)) / axis.days) / 100
}
