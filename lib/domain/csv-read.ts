/**
 * The lines of a table that a spreadsheet wrote: what csvText wrote comes back as it was.
 * Promise: comma, semicolon or tab, whichever the heads use; quotes and a byte order mark are understood; an apostrophe
 * that csvText put before a formula is taken away again. A table that cannot be read says at which line.
 */
import { CsvError, parse } from 'csv-parse/sync'

export type CsvLine = { readonly line: number; readonly cells: readonly string[] }
export type CsvRead = { readonly lines: readonly CsvLine[]; readonly brokenAt: number | null }

const DELIMITERS = [',', ';', '\t'] as const

/** Every line that holds something, with its number in the file; up to the first that cannot be read. */
export function readCsv(text: string): CsvRead {
  const lines: CsvLine[] = []
  try {
    parse(text, {
      bom: true,
      delimiter: delimiterOf(text),
      relax_column_count: true,
      skip_empty_lines: true,
      on_record: (cells: string[], { lines: line }) => {
        lines.push({ line, cells: cells.map(withoutGuard) })
        return null
      },
    })
    return { lines, brokenAt: null }
  } catch (thrown) {
    if (!(thrown instanceof CsvError)) throw thrown
    const at: unknown = thrown['lines']
    return { lines, brokenAt: typeof at === 'number' ? at : lines.length + 1 }
  }
}

/** The one that the heads hold most of; a comma where they hold none. */
function delimiterOf(text: string): string {
  const heads = text.split(/\r?\n/, 1)[0] ?? ''
  const count = (sign: string) => heads.split(sign).length
  return DELIMITERS.reduce((best, sign) => (count(sign) > count(best) ? sign : best), ',')
}

function withoutGuard(cell: string): string {
  return /^'+[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell
}
