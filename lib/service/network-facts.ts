/**
 * The few facts of the network that every page shows: its name, line, time zone and, for a demonstration, its day.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type NetworkFacts, readNetworkFacts } from '#lib/db/network-facts.ts'

/** System: what heads and feet of pages say. */
export async function getNetworkFacts(): Promise<NetworkFacts> {
  return readNetworkFacts(demand(systemActor('page frame'), 'system.run'))
}
