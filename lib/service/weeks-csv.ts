/**
 * The tables of Weeks ahead for a spreadsheet: every class in one line, or one class day by day.
 * Promise: the same figures as the page, unrounded, over the days asked for. Needs the right to see and to export.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type CsvCell, csvText } from '#lib/domain/csv-text.ts'
import { dateOfDay } from '#lib/domain/day.ts'
import { HOUSING_TYPES, type HousingType } from '#lib/domain/housing.ts'
import { getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import { poolId } from '#lib/forecast/pools.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { housingPlural, WEEKS_CSV } from '#lib/words/weeks.ts'
import { readTonight, type Tonight } from './network.ts'
import { overviewOf, WEEKS_DAYS } from './weeks.ts'

/** Which table: with centre and housing one class by day, without them all classes. */
export const weeksCsvQuery = z.object({
  days: z.coerce.number().pipe(z.literal(WEEKS_DAYS)).default(60),
  centre: z.coerce.number().int().positive().optional(),
  housing: z.enum(HOUSING_TYPES).optional(),
})
export type WeeksCsvQuery = z.infer<typeof weeksCsvQuery>

export type CsvFile = { readonly csv: string; readonly filename: string }

/** The table and a name for it. Failure 'not-found' for a class that is not there. */
export async function exportWeeks(actor: Actor, query: WeeksCsvQuery, now: Date): Promise<CsvFile> {
  const { centre, housing, days } = query
  const grant = demand(actor, 'forecast.read', centre === undefined ? undefined : { centreIds: [centre] })
  demand(actor, 'export.read')
  const tonight = await readTonight(now)
  const date = dateOfDay(tonight.today)
  if (centre !== undefined && housing !== undefined) {
    return {
      csv: classCsv(tonight, centre, housing, days),
      filename: `weeks-${centre}-${housing}-${date}.csv`,
    }
  }
  const classes = overviewOf(grant, tonight, days).classes.filter(
    one =>
      (centre === undefined || one.centreId === centre) && (housing === undefined || one.housing === housing),
  )
  const rows = classes.map(one => [
    one.centre,
    housingPlural(one.housing),
    one.tonight,
    dateOfDay(one.worst.day),
    one.worst.chance,
    one.tightDays,
    one.placeDaysShort,
  ])
  const { tonight: enclosures, worstDay, worstChance, tightDays, placeDays } = WEEKS_CSV
  const heads = [WEEKS_CSV.centre, WEEKS_CSV.housing, enclosures, worstDay, worstChance, tightDays, placeDays]
  return { csv: csvText(heads, rows), filename: `weeks-${date}.csv` }
}

function classCsv(
  { today, forecast, basis, state }: Tonight,
  centreId: number,
  housing: HousingType,
  days: number,
): string {
  const id = poolId(centreId, housing)
  const centre = state.centres.find(one => one.id === centreId)
  if (centre === undefined || !basis.pools.byId.has(id)) throw new Failure('not-found')
  const { thresholds, shortByDay, expectedShortByDay } = poolForecast(getDemand(forecast, id))
  const [whole] = thresholds
  const {
    date,
    centre: name,
    housing: kind,
    enclosures,
    mean,
    p10,
    p25,
    p50,
    p75,
    p90,
    chance,
    short,
  } = WEEKS_CSV
  const rows = Array.from({ length: Math.min(days, shortByDay.length) }, (_, d): CsvCell[] => [
    dateOfDay(today + d),
    centre.name,
    housingPlural(housing),
    whole?.capacityByDay[d] ?? null,
    whole?.meanByDay[d] ?? null,
    whole?.p10ByDay[d] ?? null,
    whole?.p25ByDay[d] ?? null,
    whole?.p50ByDay[d] ?? null,
    whole?.p75ByDay[d] ?? null,
    whole?.p90ByDay[d] ?? null,
    shortByDay[d] ?? null,
    expectedShortByDay[d] ?? null,
  ])
  return csvText([date, name, kind, enclosures, mean, p10, p25, p50, p75, p90, chance, short], rows)
}
