/**
 * What only one process does at a time.
 * Promise: the lock is the connection's own, so a process that is killed gives it up with its connection, at once.
 */
import 'server-only'
import pg from 'pg'
import type { Grant } from '#lib/authz/demand.ts'
import { env } from '#lib/env.ts'

/** Runs the work unless another process is at work of that name: then nothing is done, and undefined given. */
export async function alone<T>(
  _grant: Grant<'system.run'>,
  name: string,
  work: () => Promise<T>,
): Promise<T | undefined> {
  const client = new pg.Client({ connectionString: env().DATABASE_URL })
  // Lost while the work runs, another may begin the same: publishing lets one of them through.
  client.on('error', () => undefined)
  await client.connect()
  try {
    const { rows } = await client.query<{ locked: boolean }>(
      'select pg_try_advisory_lock(hashtextextended($1, 0)) as locked',
      [`roostwright ${name}`],
    )
    return rows[0]?.locked ? await work() : undefined
  } finally {
    await client.end()
  }
}
