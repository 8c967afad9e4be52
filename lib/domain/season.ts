/**
 * How a year's arrivals spread over its months.
 * Promise: twelve shares that sum to 1, January first, each with the mark that says how far to trust it. The season
 * shares are published; the monthly vector is constructed so that it repeats them and is nobody's measurement.
 */
import { getDaysInMonth } from 'date-fns'
import { type DayNumber, dateOfDay } from './day.ts'

/** One British centre, all species, 2012 to 2022 (trade S22; autumn and winter S68). Rounded: they sum to 0.998. */
export const SEASON_SHARES = { spring: 0.26, summer: 0.488, autumn: 0.18, winter: 0.07 } as const

/** Months of a season, from 1; three-month blocks are assumed, the source does not state them. */
export const SEASON_MONTHS = {
  spring: [3, 4, 5],
  summer: [6, 7, 8],
  autumn: [9, 10, 11],
  winter: [12, 1, 2],
} as const satisfies Record<keyof typeof SEASON_SHARES, readonly number[]>

/** Trade 3.2: constructed, not published; only the sums of the seasons are anchored. Per cent, January first. */
const ALL_SPECIES_PERCENT = [2.3, 2.1, 3.5, 7.5, 15.0, 18.8, 17.5, 12.5, 8.5, 6.0, 3.7, 2.6] as const

export type MonthShape = { readonly shares: readonly number[]; readonly mark: string }

/** All species together, constructed to repeat the published season shares. */
export const ALL_SPECIES_SHAPE: MonthShape = {
  shares: ALL_SPECIES_PERCENT.map(share => share / 100),
  mark: 'D',
}
/** The same every month: where nothing is known. */
export const EVEN_SHAPE: MonthShape = { shares: ALL_SPECIES_PERCENT.map(() => 1 / 12), mark: 'CP' }

/** The share of a year's arrivals that fall on one day: its month's share spread evenly over the month. */
export function shareOfDay(monthShares: readonly number[], day: DayNumber): number {
  const [year = 1970, month = 1] = dateOfDay(day).split('-').map(Number)
  return (monthShares[month - 1] ?? 0) / getDaysInMonth(new Date(year, month - 1, 1))
}

/** The month of a day, 1 to 12. */
export function monthOf(day: DayNumber): number {
  return Number(dateOfDay(day).slice(5, 7))
}
