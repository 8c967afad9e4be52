/**
 * The front page: how much the network holds tonight, and the demonstration's way in.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type Front, readFront } from '#lib/db/front.ts'

/** System: what anybody may read on the front page. */
export async function getFront(): Promise<Front> {
  return readFront(demand(systemActor('front page'), 'system.run'))
}
