/** Reads the reference tables: one object of text a row, a blank cell as undefined. */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parse } from 'csv-parse/sync'

export type CsvRow = Readonly<Record<string, string | undefined>>

/** The rows of a file of seed/reference. */
export function readReference(name: string): CsvRow[] {
  const file = fileURLToPath(new URL(`../reference/${name}.csv`, import.meta.url))
  const rows: Record<string, string>[] = parse(readFileSync(file, 'utf8'), { columns: true, bom: true })
  return rows.map(row =>
    Object.fromEntries(Object.entries(row).map(([key, value]) => [key, value === '' ? undefined : value])),
  )
}

/** A cell that must be filled. */
export function need(row: CsvRow, column: string): string {
  const value = row[column]
  if (value === undefined) throw new RangeError(`${column} needs a value, got none in ${JSON.stringify(row)}`)
  return value
}

/** A cell as a number; undefined where it is blank. */
export function numberOf(row: CsvRow, column: string): number | undefined {
  const value = row[column]
  if (value === undefined) return undefined
  const number = Number(value)
  if (!Number.isFinite(number)) throw new RangeError(`${column} needs a number, got ${value}`)
  return number
}

/** A cell that holds a list parted by semicolons. */
export function listOf(row: CsvRow, column: string): string[] {
  return (row[column] ?? '')
    .split(';')
    .map(part => part.trim())
    .filter(part => part !== '')
}
