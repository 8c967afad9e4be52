/**
 * Seasons that bind a species, as the trade knows them. Read when an animal is looked at; changed in setup.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type SpeciesSeason, speciesSeason } from '#lib/domain/season-gate.ts'
import { db } from './client.ts'

/** The seasons of a species. */
export async function listSeasons(
  _grant: Grant<'casualty.read' | 'casualty.revise' | 'casualty.record' | 'outcome.record'>,
  species: string,
): Promise<SpeciesSeason[]> {
  const rows = await db().speciesSeason.findMany({
    where: { speciesSlug: species, isActive: true },
    orderBy: { kind: 'asc' },
  })
  return rows.map(row => speciesSeason.parse(row))
}
