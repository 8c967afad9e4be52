/**
 * What came to a centre with one arrival.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Age } from '#lib/domain/species.ts'
import { db } from './client.ts'

export type CameHere = {
  readonly species: string
  readonly age: Age
  readonly references: readonly string[]
  readonly enclosure: string | null
  readonly conditions: readonly string[]
}

/** The animals of an arrival that are at this centre; undefined when none is. */
export async function findCameHere(
  _grant: Grant<'casualty.record'>,
  arrivalId: number,
  centreId: number,
): Promise<CameHere | undefined> {
  const [found] = await db().$queryRaw<CameHere[]>`
    select min(c.species_slug) as species, min(c.age) as age, array_agg(c.reference order by c.id) as references,
           min(e.name) as enclosure,
           array(select distinct f.condition_slug from finding f join casualty m on m.id = f.casualty_id
                  where m.arrival_id = ${arrivalId}::int and not f.is_void) as conditions
      from casualty c join whereabouts w on w.casualty_id = c.id and w.until is null
      left join enclosure e on e.id = w.enclosure_id
     where c.arrival_id = ${arrivalId}::int and w.centre_id = ${centreId}::int
    having count(*) > 0`
  return found
}
