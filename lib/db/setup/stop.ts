/**
 * States of sites as setup lists and plans them. Promise: those in force or to come first; writes run inside an entry,
 * and a planned stop breaks what it will cover at once.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type MovementStop, movementStop } from '#lib/domain/centre.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'

export type StopRow = MovementStop & {
  readonly id: number
  readonly centreId: number
  readonly centre: string
}

const included = { centre: { select: { name: true } } } as const

/** Stops that hold or will, then the last ones that are over. */
export async function listStopRows(
  _grant: Grant<'setup.read'>,
  at: Date,
  overMax: number,
): Promise<{ readonly open: readonly StopRow[]; readonly over: readonly StopRow[] }> {
  const open = { OR: [{ endsAt: null }, { endsAt: { gt: at } }] }
  const [now, past] = await Promise.all([
    db().movementStop.findMany({
      where: open,
      include: included,
      orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
    }),
    db().movementStop.findMany({
      where: { NOT: open },
      include: included,
      orderBy: [{ startsAt: 'desc' }, { id: 'desc' }],
      take: overMax,
    }),
  ])
  return { open: now.map(stopOf), over: past.map(stopOf) }
}

export async function getStopRow(_grant: Grant<'setup.read'>, id: number): Promise<StopRow> {
  const row = await db().movementStop.findUnique({ where: { id }, include: included })
  if (row === null) throw new Failure('not-found')
  return stopOf(row)
}

/** How many animals are at a centre now, of a class or of both. */
export async function countAt(
  _grant: Grant<'setup.read'>,
  centreId: number,
  animalClass: string | null,
): Promise<number> {
  const [found] = await db().$queryRaw<{ count: number }[]>`
    select count(*)::int as count from whereabouts w join casualty c on c.id = w.casualty_id
      join species s on s.slug = c.species_slug
     where w.centre_id = ${centreId}::int and w.until is null and w.keeper = 'centre'
       and (${animalClass}::text is null or s.class = ${animalClass}::text)`
  return found?.count ?? 0
}

export type PlannedStop = Omit<StopRow, 'id' | 'centre' | 'endsAt'> & { readonly endsAt?: Date | undefined }

/** Writes the stop and returns its number. */
export async function writeStop({ tx }: EntryTx, stop: PlannedStop, at: Date): Promise<number> {
  const [made] = await tx.$queryRaw<{ id: number }[]>`
    select plan_stop(${stop.centreId}::int, ${stop.siteState}::text, ${stop.coversClass}::text, ${stop.startsAt}::timestamptz,
      ${stop.endsAt ?? null}::timestamptz, ${stop.reason}::text, ${at}::timestamptz) as id`
  return made?.id ?? 0
}

/** Ends a stop now, or takes one back that has not begun; false when it was over. */
export async function endStop({ tx }: EntryTx, id: number, at: Date): Promise<boolean> {
  const [done] = await tx.$queryRaw<{ done: boolean }[]>`
    select end_stop(${id}::int, ${at}::timestamptz) as done`
  return done?.done ?? false
}

type Row = Omit<StopRow, 'siteState' | 'coversClass' | 'centre'> & {
  readonly siteState: string
  readonly coversClass: string | null
  readonly centre: { readonly name: string }
}

function stopOf({ centre, siteState, coversClass, ...row }: Row): StopRow {
  return {
    ...row,
    siteState: movementStop.shape.siteState.parse(siteState),
    coversClass: movementStop.shape.coversClass.parse(coversClass),
    centre: centre.name,
  }
}
