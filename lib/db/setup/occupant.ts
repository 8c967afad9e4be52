/**
 * Who lives in or is promised to what setup wants to change.
 * Promise: everybody whose stay has not ended and every promise that has not run out, in the order of their places.
 * Read inside the entry that makes the change, after the enclosures were locked.
 */
import 'server-only'
import type { Occupant } from '#lib/domain/occupant.ts'
import type { EntryTx } from '../entry.ts'

type Row = {
  readonly casualty_id: number
  readonly reference: string
  readonly company: string
  readonly is_alone: boolean
  readonly place_no: number | null
  readonly is_promise: boolean
  readonly enclosure: string | null
}

/** Everybody in or promised to some enclosures. */
export async function listInEnclosures(
  { tx }: EntryTx,
  enclosureIds: readonly number[],
  at: Date,
): Promise<Occupant[]> {
  const rows = await tx.$queryRaw<Row[]>`
    select c.id as casualty_id, c.reference, c.company_slug as company, c.is_alone, k.place_no, false as is_promise, e.name as enclosure
      from whereabouts w
      join casualty c on c.id = w.casualty_id
      join enclosure e on e.id = w.enclosure_id
      left join claim k on k.keeping_id = w.keeping_id and k.kind = 'stay' and k.state = 'live'
        and (k.ends_at is null or k.ends_at > ${at}::timestamptz)
     where w.enclosure_id = any (${[...enclosureIds]}::int[]) and (w.until is null or w.until > ${at}::timestamptz)
    union all
    select c.id as casualty_id, c.reference, k.company_slug, c.is_alone, k.place_no, true, e.name
      from claim k join casualty c on c.id = k.casualty_id join enclosure e on e.id = k.enclosure_id
     where k.kind = 'hold' and k.state = 'live' and k.expires_at > ${at}::timestamptz
       and k.enclosure_id = any (${[...enclosureIds]}::int[])
     order by 7, 5, 2`
  return rows.map(occupantOf)
}

/** Everybody whom a centre keeps, in a place or not, and every promise at it. */
export async function listAtCentre(entry: EntryTx, centreId: number, at: Date): Promise<Occupant[]> {
  const unplaced = await entry.tx.$queryRaw<Row[]>`
    select c.id as casualty_id, c.reference, c.company_slug as company, c.is_alone, null::int as place_no, false as is_promise, null as enclosure
      from whereabouts w join casualty c on c.id = w.casualty_id
     where w.centre_id = ${centreId}::int and w.enclosure_id is null and w.until is null
     order by c.reference`
  const enclosures = await entry.tx.enclosure.findMany({ where: { centreId }, select: { id: true } })
  const placed = await listInEnclosures(
    entry,
    enclosures.map(one => one.id),
    at,
  )
  return [...placed, ...unplaced.map(occupantOf)]
}

/** Everybody whom a practice keeps now. */
export async function listAtPractice({ tx }: EntryTx, practiceId: number): Promise<Occupant[]> {
  const rows = await tx.$queryRaw<Row[]>`
    select c.id as casualty_id, c.reference, c.company_slug as company, c.is_alone, null::int as place_no, false as is_promise, null as enclosure
      from keeping k join whereabouts w on w.keeping_id = k.id join casualty c on c.id = k.casualty_id
     where k.practice_id = ${practiceId}::int and w.until is null
     order by c.reference`
  return rows.map(occupantOf)
}

/** For whom a centre or a practice is asked, or would be asked next, with the answer open. */
export async function listAskedFor(
  { tx }: EntryTx,
  { centreId, practiceId }: { readonly centreId?: number; readonly practiceId?: number },
): Promise<string[]> {
  const asks = await tx.ask.findMany({
    where: {
      state: { in: ['written', 'put'] },
      ...(centreId ? { centreId } : { practiceId: practiceId ?? null }),
    },
    select: { casualty: { select: { reference: true } } },
    orderBy: { id: 'asc' },
  })
  return [...new Set(asks.map(ask => ask.casualty.reference))]
}

function occupantOf(row: Row): Occupant {
  return {
    casualtyId: row.casualty_id,
    reference: row.reference,
    company: row.company,
    isAlone: row.is_alone,
    placeNo: row.place_no,
    isPromise: row.is_promise,
    enclosure: row.enclosure,
  }
}
