/** Who entered a line and when, as every list of what happened reads it. */
import 'server-only'

export type Entered = { readonly by: string | null; readonly at: Date }

export const entered = { select: { enteredAt: true, enteredByOf: { select: { name: true } } } } as const

export function enteredOf(entry: { enteredAt: Date; enteredByOf: { name: string } | null }): Entered {
  return { by: entry.enteredByOf?.name ?? null, at: entry.enteredAt }
}
