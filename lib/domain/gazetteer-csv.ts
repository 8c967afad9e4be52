/**
 * The gazetteer as a table for a spreadsheet, and back.
 * Promise: reading what was written gives the same places. Every row that does not read is complained about, by line
 * and column; the same place twice in one table too. Nothing is left out silently.
 */

import type { Problem } from '#lib/kernel/failure.ts'
import { type Failure, isFailure } from '#lib/kernel/failure.ts'
import { readCsv } from './csv-read.ts'
import { csvText } from './csv-text.ts'
import { type Place, placeForm } from './gazetteer.ts'
import { parse } from './parse.ts'
import { listText } from './text.ts'

const COLUMNS = ['name', 'kind', 'alsoCalled', 'latitude', 'longitude'] as const
export type PlaceColumn = (typeof COLUMNS)[number]
const HEADS = ['name', 'kind', 'also called', 'latitude', 'longitude'] as const
export const PLACES_MAX = 10_000
const DIGITS = 20

export type Complaint = Problem & { readonly line: number }
export type PlacesRead = { readonly places: readonly Place[]; readonly complaints: readonly Complaint[] }

export function placesCsv(places: readonly Place[]): string {
  return csvText(
    HEADS,
    places.map(one => [
      one.name,
      one.kind,
      listText.encode(one.alsoCalled),
      plain(one.latitude),
      plain(one.longitude),
    ]),
  )
}

/** The places of a table, and what is wrong with its rows. */
export function readPlaces(text: string): PlacesRead {
  const { lines, brokenAt } = readCsv(text)
  const complaints: Complaint[] =
    brokenAt === null ? [] : [{ line: brokenAt, field: '', reason: 'csv-unreadable' }]
  const [heads, ...rows] = lines
  if (heads === undefined)
    return { places: [], complaints: [...complaints, { line: 1, field: '', reason: 'missing' }] }
  const at = columnsOf(heads.cells)
  const lost = COLUMNS.filter(column => column !== 'alsoCalled' && at[column] === -1)
  if (lost.length > 0) {
    const missing = lost.map(field => ({ line: heads.line, field, reason: 'csv-head-missing' }))
    return { places: [], complaints: [...complaints, ...missing] }
  }
  if (rows.length > PLACES_MAX)
    complaints.push({ line: heads.line, field: '', reason: 'too-big', limit: PLACES_MAX })
  const places: Place[] = []
  const seen = new Set<string>()
  for (const { line, cells } of rows.slice(0, PLACES_MAX)) {
    const read = readRow(cells, at)
    if (!('place' in read)) {
      complaints.push(...read.problems.map(problem => ({ ...problem, line })))
    } else if (seen.has(keyOf(read.place))) {
      complaints.push({ line, field: 'name', reason: 'csv-twice' })
    } else {
      seen.add(keyOf(read.place))
      places.push(read.place)
    }
  }
  return { places, complaints }
}

/** Two places of one name and kind are one. */
export function keyOf({ name, kind }: Pick<Place, 'name' | 'kind'>): string {
  return `${kind}\n${name}`
}

type At = Readonly<Record<PlaceColumn, number>>

function columnsOf(heads: readonly string[]): At {
  const said = heads.map(head => head.trim().toLowerCase())
  const found = COLUMNS.map((column, nth) => [column, said.indexOf(HEADS[nth] ?? column)] as const)
  return Object.fromEntries(found) as At
}

function readRow(
  cells: readonly string[],
  at: At,
): { readonly place: Place } | { readonly problems: readonly Problem[] } {
  const typed = Object.fromEntries(COLUMNS.map(column => [column, cells[at[column]] ?? '']))
  try {
    return { place: parse(placeForm, typed) }
  } catch (thrown) {
    if (!isFailure(thrown)) throw thrown
    return {
      problems: (thrown as Failure).problems.map(one => ({ ...one, field: one.field.split('.')[0] ?? '' })),
    }
  }
}

/** Degrees without an exponent, which no form reads. */
function plain(degrees: number): string {
  const text = String(degrees)
  return text.includes('e') ? degrees.toFixed(DIGITS) : text
}
