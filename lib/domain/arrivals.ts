/**
 * A year's usual arrivals of a group at a centre: how many animals, over which months, how many at once.
 * Promise: twelve month shares that sum to 1 and event sizes that sum to 1; arrivals and animals are counted apart.
 */
import { z } from 'zod'
import type { DayNumber } from './day.ts'
import { numberedBoxes, percentText } from './form-rows.ts'
import { shareOfDay } from './season.ts'
import { decimalText, integerText } from './text.ts'

export const ANIMALS_PER_YEAR_MAX = 100_000
export const EVENT_SIZE_MAX = 60
const SUM_TOLERANCE = 1e-6 // shares are typed with a few digits

const shares = z.array(z.number().min(0).max(1)).refine(all => Math.abs(sumOf(all) - 1) < SUM_TOLERANCE, {
  params: { rule: 'shares-do-not-sum' },
})

export const yearArrivalsFields = {
  centreId: z.int().positive().meta({ title: 'Centre' }),
  group: z.string().min(1).meta({ title: 'Group' }),
  animalsPerYear: z.number().min(0).max(ANIMALS_PER_YEAR_MAX).meta({ title: 'Animals a year' }),
  monthShares: shares
    .refine(all => all.length === 12, { params: { rule: 'year_arrivals_twelve_months' } })
    .meta({
      title: 'Share of each month',
    }),
  eventSizes: shares
    .refine(all => all.length >= 1 && all.length <= EVENT_SIZE_MAX, {
      params: { rule: 'year_arrivals_some_size' },
    })
    .meta({ title: 'Share of arrivals with 1, 2, 3 ... animals' }),
  mark: z.string().trim().min(1).max(80).meta({ title: 'Source' }),
}
export const yearArrivals = z.strictObject(yearArrivalsFields)
export type YearArrivals = z.infer<typeof yearArrivals>

/** The same as a form sends it: shares in per cent, one box a month and one a size. */
export const yearArrivalsForm = z.object({
  centreId: integerText.pipe(yearArrivalsFields.centreId),
  group: yearArrivalsFields.group,
  animalsPerYear: decimalText.pipe(yearArrivalsFields.animalsPerYear),
  monthShares: z.array(percentText).pipe(yearArrivalsFields.monthShares),
  eventSizes: numberedBoxes(percentText).pipe(yearArrivalsFields.eventSizes),
  mark: yearArrivalsFields.mark,
})

/** Animals an arrival brings on average. */
export function meanEventSize(eventSizes: readonly number[]): number {
  return eventSizes.reduce((sum, share, at) => sum + share * (at + 1), 0)
}

/** Arrivals expected on one day. */
export function eventsOnDay(
  arrivals: Pick<YearArrivals, 'animalsPerYear' | 'monthShares' | 'eventSizes'>,
  day: DayNumber,
): number {
  return (
    (arrivals.animalsPerYear * shareOfDay(arrivals.monthShares, day)) / meanEventSize(arrivals.eventSizes)
  )
}

function sumOf(all: readonly number[]): number {
  return all.reduce((sum, share) => sum + share, 0)
}
