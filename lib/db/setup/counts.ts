/**
 * How much of each kind is set up and switched on, in one statement.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { SetupCounts } from '#lib/domain/setup-counts.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'

export async function countSetup(_grant: Grant<'setup.read'>, at: Date): Promise<SetupCounts> {
  const [counts] = await db().$queryRaw<SetupCounts[]>`
    select (select count(*)::int from centre where is_active) as centres,
      (select count(*)::int from room where is_active) as rooms,
      (select count(*)::int from enclosure where is_active) as enclosures,
      (select count(*)::int from movement_stop where starts_at <= ${at}::timestamptz and (ends_at is null or ends_at > ${at}::timestamptz)) as stops,
      (select count(*)::int from closure where not with_switch and lifted_at is null and (ends_at is null or ends_at > ${at}::timestamptz)) as closures,
      (select count(*)::int from practice where is_active) as practices,
      (select count(*)::int from company) as companies,
      (select count(*)::int from species_group where is_active) as groups,
      (select count(*)::int from species where is_active) as species,
      (select count(*)::int from condition where is_active) as conditions,
      (select count(*)::int from reference_key where kind in ('handling', 'licence')) as rules,
      (select count(*)::int from species_season where is_active) as seasons,
      (select count(*)::int from gazetteer_place where is_active) as places,
      (select count(*)::int from driver where is_active) as drivers,
      (select round(coalesce(sum(animals_per_year), 0))::int from year_arrivals y join centre c on c.id = y.centre_id
        where c.is_active) as arrivals,
      (select count(*)::int from care_plan where is_active) as plans,
      (select count(*)::int from person where is_active) as people,
      (select preset from policy limit 1) as preset`
  if (counts === undefined) throw new Failure('rule', { rule: 'network-not-set-up' })
  return counts
}
