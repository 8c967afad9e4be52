/**
 * What late and wrong facts leave on an animal's card: whose place it is, and what an end that was taken back had ended.
 * Promise: nothing is decided here; each line is a question for a person. Internal to lib/service.
 */
import type { Grant } from '#lib/authz/demand.ts'
import type { CasualtyNow } from '#lib/db/casualty.ts'
import {
  type InPlace,
  type Lost,
  listFirstIn,
  listLostWithEnd,
  listMetThen,
  listSinceIn,
} from '#lib/db/late-facts.ts'

export type Late = {
  /** Where it has no place because others have: who they are. */
  readonly firstIn: readonly InPlace[]
  /** Who was put into its place while it counted as gone, and has none. */
  readonly sinceIn: readonly InPlace[]
  /** What ended with an end that was taken back, and is not put back. */
  readonly lost: readonly Lost[]
  /** Past stays without a place because others were recorded in it. */
  readonly metThen: Awaited<ReturnType<typeof listMetThen>>
}

/** What is open to be put right about where it is and was; only who has its place waits for where it is. */
export async function readLate(
  grant: Grant<'casualty.read'>,
  id: number,
  current: Promise<Pick<CasualtyNow, 'short'>>,
  now: Date,
): Promise<Late> {
  const isTaken = current.then(({ short }) => short === 'full' || short === 'company')
  const [firstIn, sinceIn, lost, metThen] = await Promise.all([
    isTaken.then(taken => (taken ? listFirstIn(grant, id) : [])),
    listSinceIn(grant, id, now),
    listLostWithEnd(grant, id),
    listMetThen(grant, id),
  ])
  return { firstIn, sinceIn, lost, metThen }
}
