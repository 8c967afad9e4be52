/**
 * Seasons that bind a species: when it may be released, and under which weight it is kept over winter.
 * Promise: a season may run over New Year; both its days are in it. Days are day numbers, weights grams.
 */
import { z } from 'zod'
import { type DayNumber, dateOfDay } from './day.ts'
import { monthDay } from './estimate.ts'
import type { CareStage } from './housing.ts'

export const SEASON_KINDS = ['migration', 'hibernation'] as const

export const speciesSeason = z.object({
  kind: z.enum(SEASON_KINDS),
  opens: monthDay,
  closes: monthDay,
  grams: z.number().positive().nullable(),
  mark: z.string(),
  note: z.string(),
})
export type SpeciesSeason = z.infer<typeof speciesSeason>

/** Whether a day lies within a season. */
export function isWithin(
  { opens, closes }: Pick<SpeciesSeason, 'opens' | 'closes'>,
  day: DayNumber,
): boolean {
  const now = dateOfDay(day).slice(5)
  return opens <= closes ? opens <= now && now <= closes : now >= opens || now <= closes
}

/** The season that stands against a release on a day; undefined where none does. */
export function outOfSeason(seasons: readonly SpeciesSeason[], day: DayNumber): SpeciesSeason | undefined {
  return seasons.find(season => season.kind === 'migration' && !isWithin(season, day))
}

export type Overwinter =
  | { readonly kind: 'too light'; readonly grams: number; readonly wanted: number; readonly mark: string }
  | { readonly kind: 'weigh'; readonly wanted: number; readonly mark: string }

/** Whether an animal is to be overwintered, or weighed to know it; undefined out of season or once it is planned. */
export function overwinterOf(
  seasons: readonly SpeciesSeason[],
  animal: { readonly grams: number | undefined; readonly stages: readonly CareStage[] },
  day: DayNumber,
): Overwinter | undefined {
  const season = seasons.find(one => one.kind === 'hibernation')
  if (season === undefined || season.grams === null) return undefined
  if (!isWithin(season, day) || animal.stages.includes('overwintering')) return undefined
  const { grams: wanted, mark } = season
  if (animal.grams === undefined) return { kind: 'weigh', wanted, mark }
  return animal.grams < wanted ? { kind: 'too light', grams: animal.grams, wanted, mark } : undefined
}
