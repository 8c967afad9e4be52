/**
 * The network's own row, for the frame of pages and for words that name the line or the authority.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { PlainDate } from '#lib/domain/day.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'

export type NetworkFacts = {
  readonly name: string
  readonly linePhone: string
  readonly zone: string
  readonly jurisdiction: string
  readonly authorityName: string
  readonly authorityPhone: string
  /** The day for which a demonstration was made; null for a real network. */
  readonly demoMadeOn: PlainDate | null
}

const zones = new WeakMap<object, string>()

/**
 * The network's time zone, asked once a connection pool: nothing changes it, for every date there is was counted in it.
 * Failure 'rule' before anything was set up.
 */
export async function readZone(grant: Grant<'system.run'>): Promise<string> {
  const pool = db()
  const known = zones.get(pool)
  if (known !== undefined) return known
  const { zone } = await readNetworkFacts(grant)
  zones.set(pool, zone)
  return zone
}

/** The network; Failure 'rule' before anything was set up. */
export async function readNetworkFacts(_grant: Grant<'system.run'>): Promise<NetworkFacts> {
  const [row] = await db().$queryRaw<NetworkFacts[]>`
    select name, line_phone as "linePhone", time_zone as zone, jurisdiction, authority_name as "authorityName",
           authority_phone as "authorityPhone", demo_made_on::text as "demoMadeOn"
      from network`
  if (row === undefined) throw new Failure('rule', { rule: 'network-not-set-up' })
  return row
}
