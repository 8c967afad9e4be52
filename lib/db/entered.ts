/** Who entered a line and when, and how well its own time is known, as every list of what happened reads it. */
import 'server-only'
import type { Occurred, Span } from '#lib/domain/precision.ts'

export type Entered = { readonly by: string | null; readonly at: Date }

export const entered = { select: { enteredAt: true, enteredByOf: { select: { name: true } } } } as const

export function enteredOf(entry: { enteredAt: Date; enteredByOf: { name: string } | null }): Entered {
  return { by: entry.enteredByOf?.name ?? null, at: entry.enteredAt }
}

/** The span of a time as two columns keep it; nothing where it is known to the minute. */
export function spanOfRow(earliest: Date | null, latest: Date | null): Span | null {
  return earliest === null || latest === null ? null : { earliest, latest }
}

/** When something happened, as the columns of its row. */
export function occurredRow({ at, earliest, latest }: Occurred) {
  return { at, atEarliest: earliest ?? null, atLatest: latest ?? null }
}
