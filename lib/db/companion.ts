/** Who of these animals is suspected of a notifiable disease: what a search for companions leaves out. */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'

/** Those of the numbers given that are suspected. */
export async function listSuspects(
  _grant: Grant<'casualty.read'>,
  ids: readonly number[],
): Promise<readonly number[]> {
  const rows = await db().casualty.findMany({
    where: { id: { in: [...ids] }, isDiseaseSuspect: true },
    select: { id: true },
  })
  return rows.map(({ id }) => id)
}
