/**
 * A table as text for a spreadsheet (RFC 4180: commas, quotes doubled, lines end in CRLF).
 * Promise: reads back as it was; a number stays a number. Text that a spreadsheet would take for a formula gets an
 * apostrophe before it (OWASP, "CSV injection"; from memory), as no cell of ours ever computes; so does text that would
 * look as if it had been guarded so, and reading takes one apostrophe away again.
 */

/** What a cell can hold; nothing known is empty. */
export type CsvCell = string | number | null

/** The whole file, heads first. */
export function csvText(heads: readonly string[], rows: readonly (readonly CsvCell[])[]): string {
  return [heads, ...rows].map(row => `${row.map(cellText).join(',')}\r\n`).join('')
}

function cellText(cell: CsvCell): string {
  if (cell === null) return ''
  if (typeof cell === 'number') return String(cell)
  const text = /^'*[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}
