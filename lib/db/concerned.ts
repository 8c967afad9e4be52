/**
 * Whom a change of a row concerns, by the centres and practices that have to do with it now or had until just now.
 */
import 'server-only'
import type { Grant, Row } from '#lib/authz/demand.ts'
import { db } from './client.ts'

/** Where the animal is, where it was before that, and where a place is kept for it. */
export async function listConcernedByCasualty(
  _grant: Grant<'system.run'>,
  casualtyId: number,
): Promise<Required<Row>> {
  const rows = await db().$queryRaw<{ centreId: number | null; practiceId: number | null }[]>`
    (select w.centre_id as "centreId", k.practice_id as "practiceId"
       from whereabouts w join keeping k on k.id = w.keeping_id
      where w.casualty_id = ${casualtyId}::int order by w.since desc limit 2)
    union
    select e.centre_id, null from claim c join enclosure e on e.id = c.enclosure_id
     where c.casualty_id = ${casualtyId}::int and c.kind = 'hold' and c.state = 'live'`
  return reachOf(rows)
}

/** Where the animals of an arrival are. */
export async function listConcernedByArrival(
  _grant: Grant<'system.run'>,
  arrivalId: number,
): Promise<Required<Row>> {
  const rows = await db().$queryRaw<{ centreId: number | null; practiceId: number | null }[]>`
    select w.centre_id as "centreId", null::int as "practiceId"
      from whereabouts w join casualty c on c.id = w.casualty_id
     where c.arrival_id = ${arrivalId}::int and w.until is null`
  return reachOf(rows)
}

/** Where the animals of a release are, or were until they went. */
export async function listConcernedByRelease(
  _grant: Grant<'system.run'>,
  releaseId: number,
): Promise<Required<Row>> {
  const rows = await db().$queryRaw<{ centreId: number | null; practiceId: number | null }[]>`
    select distinct w.centre_id as "centreId", null::int as "practiceId"
      from release_animal a, lateral (select b.centre_id from whereabouts b
        where b.casualty_id = a.casualty_id order by b.since desc limit 2) w
     where a.release_id = ${releaseId}::int`
  return reachOf(rows)
}

/** The centre in which a place was promised. */
export async function listConcernedByClaim(
  _grant: Grant<'system.run'>,
  claimId: number,
): Promise<Required<Row>> {
  const rows = await db().$queryRaw<{ centreId: number | null; practiceId: number | null }[]>`
    select e.centre_id as "centreId", null::int as "practiceId"
      from claim c join enclosure e on e.id = c.enclosure_id where c.id = ${claimId}::int`
  return reachOf(rows)
}

/** The centre of an enclosure; none where it is not there. */
export async function listConcernedByEnclosure(
  _grant: Grant<'system.run'>,
  enclosureId: number,
): Promise<Required<Row>> {
  const found = await db().enclosure.findUnique({ where: { id: enclosureId }, select: { centreId: true } })
  return { centreIds: found === null ? [] : [found.centreId], practiceIds: [] }
}

type Reached = { readonly centreId: number | null; readonly practiceId: number | null }

function reachOf(rows: readonly Reached[]): Required<Row> {
  return {
    centreIds: rows.flatMap(({ centreId }) => centreId ?? []),
    practiceIds: rows.flatMap(({ practiceId }) => practiceId ?? []),
  }
}
