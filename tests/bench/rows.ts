/** Rows of measured figures against their bars: printed as a table, and the exit code when one fails. */
import { fileURLToPath } from 'node:url'

export type Row = {
  readonly name: string
  readonly measured: string
  /** Empty where a figure is told and not judged. */
  readonly bar: string
  readonly holds: boolean
}

/** Prints the rows and leaves exit code 1 when a bar does not hold. */
export function report(rows: readonly Row[]): void {
  console.log(tableOf(rows))
  if (rows.some(row => !row.holds)) process.exitCode = 1
}

/** The rows as lines of a table. */
export function tableOf(rows: readonly Row[]): string {
  const table = [
    ['name', 'measured', 'bar', 'holds'],
    ...rows.map(row => [row.name, row.measured, row.bar, verdict(row)]),
  ]
  const widths = [0, 1, 2, 3].map(column => Math.max(...table.map(cells => cells[column]!.length)))
  return table
    .map(cells =>
      cells
        .map((cell, column) => cell.padEnd(widths[column]!))
        .join('  ')
        .trimEnd(),
    )
    .join('\n')
}

function verdict({ bar, holds }: Row): string {
  return bar === '' ? '' : holds ? 'yes' : 'NO'
}

/** The middle of some measurements. */
export function median(times: readonly number[]): number {
  const sorted = times.toSorted((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]!
}

/** A row that is judged. */
export const must = (name: string, measured: number, bar: string, holds: boolean): Row => ({
  name,
  measured: String(measured),
  bar,
  holds,
})

/** A row that is told only. */
export const told = (name: string, measured: string): Row => ({ name, measured, bar: '', holds: true })

/** Whether a module is the program that was started. */
export function isProgram(url: string): boolean {
  return process.argv[1] === fileURLToPath(url)
}
