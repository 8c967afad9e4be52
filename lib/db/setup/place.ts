/**
 * The gazetteer's places. Promise: a place stands once by name and kind; what is imported again changes nothing. Writes
 * run inside an entry and over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type Place, type PlaceKind, placeFields } from '#lib/domain/gazetteer.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type PlaceRow = Place & { readonly id: number; readonly isActive: boolean; readonly version: number }

/** One page of the places, those that some letters name if any are given. */
export async function listPlaceRows(
  _grant: Grant<'setup.read'>,
  asked: { readonly letters: string; readonly skip: number; readonly take: number },
): Promise<{ readonly rows: readonly PlaceRow[]; readonly total: number }> {
  const like = `%${asked.letters.replaceAll(/[%_\\]/g, sign => `\\${sign}`)}%`
  const found = await db().$queryRaw<{ id: number; total: number }[]>`
    select id, count(*) over ()::int as total from gazetteer_place
     where name ilike ${like}::text or exists (select from unnest(also_called) word where word ilike ${like}::text)
     order by is_active desc, lower(name), id offset ${asked.skip}::int limit ${asked.take}::int`
  const rows = await db().gazetteerPlace.findMany({ where: { id: { in: found.map(one => one.id) } } })
  const byId = new Map(rows.map(row => [row.id, placeOf(row)]))
  return { total: found[0]?.total ?? 0, rows: found.flatMap(({ id }) => byId.get(id) ?? []) }
}

/** Every place that is switched on, by name. */
export async function listAllPlaces(_grant: Grant<'export.read'>): Promise<Place[]> {
  const rows = await db().gazetteerPlace.findMany({
    where: { isActive: true },
    orderBy: [{ name: 'asc' }, { kind: 'asc' }],
  })
  return rows.map(row => withoutRow(placeOf(row)))
}

export async function getPlaceRow(_grant: Grant<'setup.read'>, id: number): Promise<PlaceRow> {
  const row = await db().gazetteerPlace.findUnique({ where: { id } })
  if (row === null) throw new Failure('not-found')
  return placeOf(row)
}

export async function insertPlace({ tx }: EntryTx, place: Place): Promise<number> {
  const { id } = await tx.gazetteerPlace.create({ data: place, select: { id: true } })
  return id
}

export async function updatePlace(
  { tx }: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  change: Place | { readonly isActive: boolean },
): Promise<void> {
  const written = await tx.gazetteerPlace.updateMany({
    where: { id, version },
    data: { ...change, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.gazetteerPlace.findUnique({ where: { id }, select: { version: true } }))
}

/** Adds and changes places as a table has them; those that it does not name stay. Which of them were new. */
export async function writePlaces(
  { tx }: EntryTx,
  places: readonly Place[],
): Promise<{ added: number; changed: number }> {
  const written = await tx.$queryRaw<{ isNew: boolean }[]>`
    insert into gazetteer_place as g (name, kind, also_called, latitude, longitude)
    select name, kind, "alsoCalled", latitude, longitude
      from jsonb_to_recordset(${JSON.stringify(places)}::jsonb)
        as x (name text, kind text, "alsoCalled" text[], latitude float8, longitude float8)
    on conflict on constraint gazetteer_place_name_once do update
      set also_called = excluded.also_called, latitude = excluded.latitude, longitude = excluded.longitude,
          is_active = true, version = g.version + 1
      where (g.also_called, g.latitude, g.longitude, g.is_active)
        is distinct from (excluded.also_called, excluded.latitude, excluded.longitude, true)
    returning xmax = 0 as "isNew"`
  const added = written.filter(one => one.isNew).length
  return { added, changed: written.length - added }
}

type Row = Omit<PlaceRow, 'kind'> & { readonly kind: string }

function placeOf(row: Row): PlaceRow {
  const kind: PlaceKind = placeFields.kind.parse(row.kind)
  return { ...row, kind }
}

function withoutRow({ id: _id, isActive: _isActive, version: _version, ...place }: PlaceRow): Place {
  return place
}
