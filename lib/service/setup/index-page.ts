/**
 * What the index of setup says of each of its pages. Promise: counts of what is switched on, one query each.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { countSetup } from '#lib/db/setup/counts.ts'
import type { SetupCounts } from '#lib/domain/setup-counts.ts'

export async function getSetupCounts(actor: Actor, now: Date): Promise<SetupCounts> {
  return countSetup(demand(actor, 'setup.read'), now)
}
