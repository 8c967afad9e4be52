/**
 * Civil dates between a date column, which the driver gives as midnight UTC, and text.
 */
import 'server-only'

/** "2026-11-01". */
export function civilDate(column: Date | null): string | null {
  return column === null ? null : column.toISOString().slice(0, 10)
}

export function dateColumn(date: string | null): Date | null {
  return date === null ? null : new Date(`${date}T00:00:00Z`)
}
