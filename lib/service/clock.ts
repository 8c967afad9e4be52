/**
 * The instant that a test has set; web asks only in test mode.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findSetInstant } from '#lib/db/test-clock.ts'

/** System: read before anybody is known. */
export async function findTestInstant(): Promise<Date | undefined> {
  return findSetInstant(demand(systemActor('test clock'), 'system.run'))
}
