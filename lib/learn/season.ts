/**
 * The season in which an animal was admitted.
 * Promise: the four seasons of the weather, by calendar month. What ends by a date, a moult, a migration or a weight before
 * winter takes as long as the season leaves it, so its lengths are learned by season of admission: it is part of a cell's key.
 */
import { type DayNumber, dateOfDay } from '#lib/domain/day.ts'

const SEASONS = ['winter', 'spring', 'summer', 'autumn'] as const
export type Season = (typeof SEASONS)[number]

/** Spring is March to May, winter December to February. */
export function seasonOf(day: DayNumber): Season {
  const month = Number(dateOfDay(day).slice(5, 7))
  return SEASONS[Math.floor((month % 12) / 3)] ?? 'winter'
}
