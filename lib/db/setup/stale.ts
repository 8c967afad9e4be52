/**
 * Two people change one thing: the second is told. Promise: a row is written only over the version that was read;
 * 'conflict' with the newest version where somebody was faster, 'not-found' where there is no such row.
 */
import 'server-only'
import { Failure } from '#lib/kernel/failure.ts'

/** Throws unless the guarded write met exactly its row; `find` looks the row up once more, without the version. */
export async function refuseStale(
  written: { readonly count: number },
  find: () => Promise<{ readonly version: number } | null>,
): Promise<void> {
  if (written.count > 0) return
  const now = await find()
  if (now === null) throw new Failure('not-found')
  throw new Failure('conflict', { data: { version: now.version } })
}
