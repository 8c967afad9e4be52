/**
 * The instant that a test has set, if it has. Read only where the surroundings allow a settable clock.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'

/** What the test set; undefined while it set nothing. */
export async function findSetInstant(_grant: Grant<'system.run'>): Promise<Date | undefined> {
  const row = await db().testClock.findFirst({ select: { at: true } })
  return row?.at
}
