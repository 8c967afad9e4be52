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

/** The network; Failure 'rule' before anything was set up. */
export async function readNetworkFacts(_grant: Grant<'system.run'>): Promise<NetworkFacts> {
  const row = await db().network.findFirst()
  if (row === null) throw new Failure('rule', { rule: 'network-not-set-up' })
  return {
    name: row.name,
    linePhone: row.linePhone,
    zone: row.timeZone,
    jurisdiction: row.jurisdiction,
    authorityName: row.authorityName,
    authorityPhone: row.authorityPhone,
    demoMadeOn: row.demoMadeOn === null ? null : row.demoMadeOn.toISOString().slice(0, 10),
  }
}
