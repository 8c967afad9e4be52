/**
 * The gazetteer in setup, in words: kinds of places, what an import would do, what is wrong with a row.
 */
import type { PlaceKind } from '#lib/domain/gazetteer.ts'
import type { Complaint } from '#lib/domain/gazetteer-csv.ts'
import { problemWords } from './failure.ts'

export const PLACE_PAGE = {
  letters: 'Name or part of it',
  look: 'Look for it',
  kind: 'Kind',
  also: 'Also called',
  where: 'Where',
  filename: 'gazetteer.csv',
  csv: 'As a table for a spreadsheet',
  importing: 'Take in a table',
  head: 'The place',
  note: 'Callers name places in their own way: every name that they use helps to find it.',
  source: 'The table',
  sourceNote:
    'Heads: name, kind, also called, latitude, longitude. Kinds are town, village, road, landmark, water. A place of the same name and kind is changed; places that the table does not name stay.',
  paste: 'Rows, pasted',
  file: 'Or a file',
  fileHint: 'With a file chosen, what is pasted counts for nothing',
  check: 'Check the table',
  take: 'Take in the good rows',
  checked: 'Nothing is taken in yet, and the table is kept.',
  complaints: 'Rows that need another look',
  nobody: 'No place has these letters',
  nobodyComing: 'Try fewer letters, or add the place.',
} as const

const KIND: Readonly<Record<PlaceKind, string>> = {
  town: 'Town',
  village: 'Village',
  road: 'Road',
  landmark: 'Landmark',
  water: 'Water',
}

export function placeKindWords(kind: PlaceKind): string {
  return KIND[kind]
}

const COLUMN: Readonly<Record<string, string>> = {
  name: 'name',
  kind: 'kind',
  alsoCalled: 'also called',
  latitude: 'latitude',
  longitude: 'longitude',
}

/** "Line 4, latitude: A number, such as 12 or 0.5". */
export function complaintWords(complaint: Complaint): string {
  const column = COLUMN[complaint.field]
  const at = column === undefined ? `Line ${complaint.line}` : `Line ${complaint.line}, ${column}`
  return `${at}: ${problemWords(complaint)}`
}

/** "The table has 3 new places and 1 changed one; 60 stay as they are, 2 rows need another look". */
export function importWords(found: {
  readonly added: number
  readonly changed: number
  readonly same: number
  readonly faulty: number
}): string {
  const { added, changed, same, faulty } = found
  const parts = [
    `${added} new`,
    `${changed} changed`,
    `${same} as they are`,
    ...(faulty === 0 ? [] : [faulty === 1 ? '1 row needs another look' : `${faulty} rows need another look`]),
  ]
  return `In this table: ${parts.join(', ')}`
}
