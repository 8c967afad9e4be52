/**
 * Closures as setup lists them, and who is in what is shut.
 * Promise: those of a switch are left out, since switching on lifts them; those still to come or in force first, the newest first; what is over follows. Writing them is closure.ts.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'

export type ClosureRow = {
  readonly id: number
  readonly enclosureId: number
  readonly enclosure: string
  readonly room: string
  readonly centre: string
  readonly startsAt: Date
  readonly endsAt: Date | null
  readonly liftedAt: Date | null
  readonly reason: string
}

const selected = {
  id: true,
  enclosureId: true,
  startsAt: true,
  endsAt: true,
  liftedAt: true,
  reason: true,
  enclosure: {
    select: { name: true, room: { select: { name: true } }, centre: { select: { name: true } } },
  },
} as const

type Row = Omit<ClosureRow, 'enclosure' | 'room' | 'centre'> & {
  readonly enclosure: {
    readonly name: string
    readonly room: { readonly name: string }
    readonly centre: { readonly name: string }
  }
}

/** Closures that hold or will, then the last ones that are over. */
export async function listClosureRows(
  _grant: Grant<'setup.read'>,
  at: Date,
  overMax: number,
): Promise<{ readonly open: readonly ClosureRow[]; readonly over: readonly ClosureRow[] }> {
  const open = { withSwitch: false, liftedAt: null, OR: [{ endsAt: null }, { endsAt: { gt: at } }] }
  const [now, past] = await Promise.all([
    db().closure.findMany({ where: open, select: selected, orderBy: [{ startsAt: 'asc' }, { id: 'asc' }] }),
    db().closure.findMany({
      where: { withSwitch: false, NOT: open },
      select: selected,
      orderBy: [{ startsAt: 'desc' }, { id: 'desc' }],
      take: overMax,
    }),
  ])
  return { open: now.map(closureOf), over: past.map(closureOf) }
}

export async function getClosureRow(_grant: Grant<'setup.read'>, id: number): Promise<ClosureRow> {
  const row = await db().closure.findUnique({ where: { id }, select: selected })
  if (row === null) throw new Failure('not-found')
  return closureOf(row)
}

/** References of the animals that are in an enclosure now. */
export async function listReferencesIn(_grant: Grant<'setup.read'>, enclosureId: number): Promise<string[]> {
  const rows = await db().$queryRaw<{ reference: string }[]>`
    select c.reference from whereabouts w join casualty c on c.id = w.casualty_id
     where w.enclosure_id = ${enclosureId}::int and w.until is null order by c.reference`
  return rows.map(row => row.reference)
}

function closureOf({ enclosure, ...row }: Row): ClosureRow {
  return {
    ...row,
    enclosure: enclosure.name,
    room: enclosure.room.name,
    centre: enclosure.centre.name,
  }
}
