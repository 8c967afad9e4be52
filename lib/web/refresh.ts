/**
 * Which pages show what: after a write, `refresh(noun)` makes the browser's kept copies of them stale.
 * Promise: one table; a noun names every page it appears on.
 */
import 'server-only'
import { revalidatePath } from 'next/cache'

const SHOWN_ON = {
  call: ['/', '/calls', '/line', '/due'],
  casualty: ['/', '/calls', '/line', '/due', '/casualties', '/releases', '/round', '/door', '/weeks'],
  // A driver who is late is told on every page.
  journey: ['/'],
  // The alarm of an unheld line stands on every page.
  line: ['/'],
  judged: ['/records/came-true'],
  setup: ['/', '/calls', '/round', '/weeks', '/setup'],
  person: ['/setup'],
  session: ['/'],
  account: ['/me'],
} as const satisfies Record<string, readonly string[]>

export type Noun = keyof typeof SHOWN_ON

/** Marks every page that shows one of the nouns as changed. */
export function refresh(...nouns: readonly Noun[]): void {
  const paths = new Set(nouns.flatMap(noun => SHOWN_ON[noun]))
  for (const path of paths) revalidatePath(path, 'layout')
}
