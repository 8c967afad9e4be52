/**
 * The gazetteer in setup: looked through, added to, changed, taken in from a table and given out as one.
 * Promise: a table is checked before anything is written, and every complaint says line and column; a second import of
 * the same table changes nothing.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  getPlaceRow,
  insertPlace,
  listAllPlaces,
  listPlaceRows,
  type PlaceRow,
  updatePlace,
  writePlaces,
} from '#lib/db/setup/place.ts'
import { placeForm } from '#lib/domain/gazetteer.ts'
import { placesCsv, readPlaces } from '#lib/domain/gazetteer-csv.ts'
import { parse } from '#lib/domain/parse.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { complaintWords, importWords, PLACE_PAGE } from '#lib/words/setup-place.ts'

const COLUMNS = ['name', 'kind', 'also_called', 'position']
const CSV_MAX = 900_000
const importForm = z.object({
  csv: z.string().min(1).max(CSV_MAX),
  confirm: z.string().default(''),
})

export async function listPlaces(
  actor: Actor,
  asked: { readonly letters: string; readonly skip: number; readonly take: number },
): Promise<{ readonly rows: readonly PlaceRow[]; readonly total: number }> {
  return listPlaceRows(demand(actor, 'setup.read'), asked)
}

export async function getPlace(actor: Actor, id: number): Promise<PlaceRow> {
  return getPlaceRow(demand(actor, 'setup.read'), id)
}

/** Throws unless a place may be added. */
export async function newPlaceForm(actor: Actor): Promise<void> {
  demand(actor, 'setup.places')
}

export async function addPlace(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'setup.places')
  const place = parse(placeForm, input)
  return inEntry(
    grant,
    { now, action: 'added', subject: 'place', subjectId: id => id, columns: COLUMNS },
    entry => insertPlace(entry, place),
  )
}

export async function changePlace(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.places')
  const { version } = parse(versionForm, input)
  const place = parse(placeForm, input)
  await inEntry(grant, { now, action: 'changed', subject: 'place', subjectId: id, columns: COLUMNS }, entry =>
    updatePlace(entry, { id, version }, place),
  )
}

export async function switchPlace(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.places')
  const { version, isActive } = parse(switchForm, input)
  const action = isActive ? 'switched on' : 'switched off'
  await inEntry(grant, { now, action, subject: 'place', subjectId: id, columns: ['is_active'] }, entry =>
    updatePlace(entry, { id, version }, { isActive }),
  )
}

/** The places that are switched on, as a table. */
export async function exportPlaces(
  actor: Actor,
): Promise<{ readonly csv: string; readonly filename: string }> {
  return { csv: placesCsv(await listAllPlaces(demand(actor, 'export.read'))), filename: PLACE_PAGE.filename }
}

/**
 * Takes a table in. The first time it only says what it would do, and what is wrong; the second time, confirmed, the
 * good rows are written.
 */
export async function importPlaces(actor: Actor, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.places')
  const { csv, confirm } = parse(importForm, input)
  const { places, complaints } = readPlaces(csv)
  await inEntry(
    grant,
    { now, action: 'imported', subject: 'place', subjectId: 'table', columns: COLUMNS },
    async entry => {
      const { added, changed } = await writePlaces(entry, places)
      const same = places.length - added - changed
      // A text area gives its lines back with other ends than the file had.
      const length = csv.replaceAll(/\r\n?/g, '\n').trim().length
      const fingerprint = [length, added, changed, same, complaints.length].join('.')
      if (confirm === fingerprint && places.length > 0) return
      throw new Failure('rule', {
        rule: 'import-checked',
        data: {
          say: importWords({ added, changed, same, faulty: new Set(complaints.map(one => one.line)).size }),
          complaints: complaints.map(complaintWords),
          ...(added + changed > 0 && { confirm: fingerprint }),
        },
      })
    },
  )
}
