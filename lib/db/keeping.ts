/**
 * Facts about where an animal is. Promise: saved, always; what has to give way (holds, drying) does, in the same
 * transaction. Runs inside an entry (entry.ts). Times are instants.
 */
import 'server-only'
import type { Grant, Row } from '#lib/authz/demand.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

/** Who has the animal from an instant on. */
export type Keeper =
  | { readonly keeper: 'finder' }
  | { readonly keeper: 'driver'; readonly driverId: number }
  | { readonly keeper: 'practice'; readonly practiceId: number }
  | {
      readonly keeper: 'centre'
      readonly centreId?: number | undefined
      readonly enclosureId?: number | undefined
      readonly placeNo?: number | undefined
      readonly overrideReason?: string | undefined
    }
  | { readonly keeper: 'nobody'; readonly outcome: Outcome }

export type Fact = Keeper & {
  readonly casualtyId: number
  readonly since: Date
  readonly earliest?: Date | undefined
  readonly latest?: Date | undefined
  /** The fact that this one corrects; its newest version is. */
  readonly supersedes?: number | undefined
}

/** Takes a fact back: the state before it returns. */
export type Voiding = { readonly casualtyId: number; readonly supersedes: number; readonly isVoid: true }

/** Records facts in the order given and returns their numbers. Failure 'not-found' where one corrects another animal's. */
export async function recordFacts(
  { tx, entryId }: EntryTx,
  facts: readonly (Fact | Voiding)[],
  at: Date,
): Promise<number[]> {
  for (const { casualtyId, supersedes } of facts) {
    if (
      supersedes !== undefined &&
      (await tx.keeping.count({ where: { id: supersedes, casualtyId } })) === 0
    ) {
      throw new Failure('not-found')
    }
  }
  const rows = facts.map(fact => rowOf(fact, entryId))
  const [made] = await tx.$queryRaw<{ ids: number[] }[]>`
    select record_keepings(${JSON.stringify(rows)}::jsonb, ${at}::timestamptz) as ids`
  return made?.ids ?? []
}

/** A row for each centre and practice that a casualty concerns, and one of neither; none without the casualty. */
export type ReachRow = { readonly centreId: number | null; readonly practiceId: number | null }

/** The statement of them, to stand alone or beside what names the casualty. */
export const reachRows = (casualtyId: Prisma.Sql) => Prisma.sql`
    select w.centre_id as "centreId", w.practice_id as "practiceId"
      from (select keeping.centre_id, keeping.practice_id
              from whereabouts join keeping on keeping.id = whereabouts.keeping_id
             where whereabouts.casualty_id = ${casualtyId} and until is null
            union all
            select e.centre_id, null from claim c join enclosure e on e.id = c.enclosure_id
             where c.casualty_id = ${casualtyId} and c.kind = 'hold' and c.state = 'live'
            union all
            (select k.centre_id, k.practice_id from whereabouts b join keeping k on k.id = b.keeping_id
              where b.casualty_id = ${casualtyId} and b.keeper in ('centre', 'practice')
                and exists (select from whereabouts n
                      where n.casualty_id = b.casualty_id and n.until is null and n.keeper = 'nobody')
              order by b.since desc limit 1)
            union all select null, null from casualty where id = ${casualtyId}) w`

/**
 * Whom a casualty concerns: where it is now, where a place is kept for it; a closed case, who had it last.
 * Failure 'not-found' without the casualty.
 */
export async function getReach(_grant: Grant<'system.run'>, casualtyId: number): Promise<Required<Row>> {
  return reachOf(await db().$queryRaw<ReachRow[]>(reachRows(Prisma.sql`${casualtyId}::int`)))
}

/** What its rows say. */
export function reachOf(rows: readonly ReachRow[]): Required<Row> {
  if (rows.length === 0) throw new Failure('not-found')
  return {
    centreIds: rows.flatMap(({ centreId }) => centreId ?? []),
    practiceIds: rows.flatMap(({ practiceId }) => practiceId ?? []),
  }
}

/** Whether a casualty is with its finder or on the road: no centre and no practice has it, nor was its case closed. */
export async function isUnderway(_grant: Grant<'system.run'>, casualtyId: number): Promise<boolean> {
  const kept = await db().whereabouts.count({
    where: { casualtyId, until: null, keeper: { notIn: ['finder', 'driver'] } },
  })
  return kept === 0
}

/** The centre of an enclosure. */
export async function getCentreOfEnclosure(
  _grant: Grant<'system.run'>,
  enclosureId: number,
): Promise<number> {
  const found = await db().enclosure.findUnique({ where: { id: enclosureId }, select: { centreId: true } })
  if (found === null) throw new Failure('not-found')
  return found.centreId
}

function rowOf(fact: Fact | Voiding, entryId: number): object {
  const common = { entry_id: entryId, casualty_id: fact.casualtyId, supersedes: fact.supersedes }
  if ('isVoid' in fact) return { ...common, is_void: true }
  const when = {
    since: fact.since,
    since_earliest: fact.earliest,
    since_latest: fact.latest,
    keeper: fact.keeper,
  }
  return { ...common, ...when, ...keeperColumns(fact) }
}

function keeperColumns(fact: Keeper): object {
  switch (fact.keeper) {
    case 'finder':
      return {}
    case 'driver':
      return { driver_id: fact.driverId }
    case 'practice':
      return { practice_id: fact.practiceId }
    case 'nobody':
      return { outcome: fact.outcome }
    case 'centre':
      return {
        centre_id: fact.centreId,
        enclosure_id: fact.enclosureId,
        place_no: fact.placeNo,
        override_reason: fact.overrideReason,
      }
  }
}
